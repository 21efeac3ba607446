/**
 * What a worker thread loads first. Piscina reads a worker's file by require(); a thread that is ended while require()
 * loads an ES module takes the whole process with it (exit 134, `v8::Module::IsGraphAsync`, Node 20 and 22). So require()
 * reads this file alone, and the module named in the thread's data comes by import(), which may be cut off anywhere.
 */
const { workerData } = require('node:worker_threads');

module.exports = import(workerData.module).then((worker) => worker.default);
