// The version of this program, as its package says it.

export const programName = 'halfsplit';
export const programVersion = '0.1.0';
