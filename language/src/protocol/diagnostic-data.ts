// What a diagnostic carries beside its message: the mends of the finding, as edits that a client can apply.

/** A place in a text as the protocol counts: line and UTF-16 unit, both from 0. */
export interface PlaceInText {
    readonly line: number;
    readonly character: number;
}

export interface MendEdit {
    readonly uri: string;
    readonly range: { readonly start: PlaceInText; readonly end: PlaceInText };
    readonly newText: string;
}

/** One way to mend the finding. */
export interface MendData {
    readonly title: string;
    /** `safe` keeps the meaning, `placeholder` leaves something to fill in, `suggestion` may be wrong. */
    readonly safety: 'safe' | 'placeholder' | 'suggestion';
    readonly edits: readonly MendEdit[];
}

export interface DiagnosticData {
    /** The version of the text that the edits were made for; 0 for a text that no client has open. */
    readonly version: number;
    readonly mends: readonly MendData[];
}
