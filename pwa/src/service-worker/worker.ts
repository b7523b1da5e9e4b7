/** The service worker: the app opens without the server, and a new version waits until it is asked in. */

export {};
