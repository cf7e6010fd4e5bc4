/** The program's version, put in by vite.config.ts. */
declare const __BARM_VERSION__: string;
