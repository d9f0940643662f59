// Files on a disk, with where their links lead.

import { realpath } from 'node:fs/promises';
import { URI } from 'langium';
import { NodeFileSystemProvider } from 'langium/node';

export class NodeFiles extends NodeFileSystemProvider {
    /** The address without links; rejects where nothing is there. */
    async realPath(uri: URI): Promise<URI> {
        return URI.file(await realpath(uri.fsPath));
    }
}
