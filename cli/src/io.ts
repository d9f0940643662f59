// What the program needs of the computer that it runs on; tests give it another one.

/** Where text goes: standard output or standard error. */
export interface TextStream {
    write(text: string): void;
    readonly isTerminal: boolean;
    /** The width in columns, where it is known. */
    readonly columns: number | undefined;
}

/** The changes that the program makes to the disk, each as Node's function of that name does it. */
export interface Disk {
    makeFolder(folder: string): void;
    /** Creates a file that was not there, writes all of it, and returns when the disk has it. `mode` is the file's permission bits. */
    createFile(file: string, text: string, mode: number | undefined): void;
    rename(from: string, to: string): void;
    remove(file: string): void;
}

export interface Io {
    /** The current folder, as an absolute path. */
    readonly folder: string;
    readonly environment: Readonly<Record<string, string | undefined>>;
    /** Results. */
    readonly output: TextStream;
    /** Messages and progress. */
    readonly messages: TextStream;
    /** All of standard input, or its beginning where it is longer than `limit` bytes. */
    readInput(limit: number): Promise<Uint8Array>;
    /** The lines of standard input as they come, without their ends. */
    readLines(): AsyncIterable<string>;
    /** Milliseconds since some point in time. */
    now(): number;
    readonly disk: Disk;
    /** Does the work without being stopped in the middle of it; an interruption that comes meanwhile ends the program after it. */
    uninterrupted(work: () => void): Promise<void>;
}
