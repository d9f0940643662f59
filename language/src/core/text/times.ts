// Lengths of time as people write them.

/** `30 min`, `90 s`, `1.5 h`: the largest unit in which the number stays plain. Milliseconds in. */
export function timeWords(time: number): string {
    const seconds = time / 1000;
    if (seconds >= 7200 && seconds % 1800 === 0) return `${seconds / 3600} h`;
    if (seconds >= 120 && seconds % 30 === 0) return `${seconds / 60} min`;
    return `${Math.round(seconds * 10) / 10} s`;
}
