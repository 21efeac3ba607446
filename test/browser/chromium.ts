import { type Browser, chromium, type Page } from 'playwright-core';

/** Where Debian's package puts it; elsewhere say so in CHROMIUM. */
const EXECUTABLE = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** What takes a second takes longer on a busy machine, ms. */
const LONGEST = 300_000;

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: EXECUTABLE,
    timeout: LONGEST,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
}

/** What a page puts off until its next picture is done; on a busy machine there may be few pictures a second. */
export async function nextFrame(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** A page that remembers what went wrong on it, and what it asked for beyond its own file. */
export interface Watched {
  readonly page: Page;
  readonly complaints: string[];
  readonly requests: string[];
}

export async function open(
  browser: Browser,
  file: string,
  options: Parameters<Browser['newPage']>[0] = {},
): Promise<Watched> {
  const page = await browser.newPage({ viewport: { width: 1000, height: 800 }, ...options });
  page.setDefaultTimeout(LONGEST);
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => {
    if (message.type() !== 'log') complaints.push(`${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('dialog', async (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    await dialog.dismiss();
  });
  page.on('request', (request) => {
    // a blob is made by the page itself, of what is in it
    if (request.url() !== `file://${file}` && !request.url().startsWith('blob:null/'))
      requests.push(request.url());
  });
  await page.goto(`file://${file}`);
  return { page, complaints, requests };
}
