import { type Browser, chromium, type Page } from 'playwright-core';

/** Where Debian's package puts it; elsewhere say so in CHROMIUM. */
const EXECUTABLE = process.env.CHROMIUM ?? '/usr/bin/chromium';

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: EXECUTABLE,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
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
