import { startPage } from './start-page.ts';
import { serveViews } from './view-worker.ts';

/** The one script of a live page: on the page it draws, in a worker thread that the page starts it computes. */
if (typeof document === 'undefined') serveViews();
else startPage();
