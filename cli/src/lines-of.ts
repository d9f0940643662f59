// Divides bytes that come one piece after the other into lines, each as soon as it is there.

/** A line that is longer is given in pieces, so that a stream without line ends does not fill the memory. */
const longestLine = 65_536;

/** The lines of a text in UTF-8, without their ends; what stands behind the last end is a line too, unless it is empty. */
export async function* linesOf(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
    const decoder = new TextDecoder();
    let rest = '';
    for await (const piece of pieces) {
        rest += decoder.decode(piece, { stream: true });
        const lines = rest.split('\n');
        rest = lines.pop() ?? '';
        for (const line of lines) yield line.endsWith('\r') ? line.slice(0, -1) : line;
        for (; rest.length > longestLine; rest = rest.slice(longestLine)) yield rest.slice(0, longestLine);
    }
    rest += decoder.decode();
    if (rest !== '') yield rest;
}
