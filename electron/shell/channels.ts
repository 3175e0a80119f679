/** The two IPC channels between preload bridge and main process. */
export const CALL_CHANNEL = 'amberwick:call';
export const EVENT_CHANNEL = 'amberwick:event';
