/** Says which part of the code may import which other part, for the linter and for the test of the import graph. */

/**
 * @typedef {object} Area a folder (or file) with one set of allowed imports; it may always import its own files
 * @property {string} path a folder that ends in a slash, or a file
 * @property {string[]} may the paths of other areas that it may import
 * @property {string[]} [mayTypes] the paths of other areas of which it may import types only
 * @property {string[]} packages the packages that it may import
 * @property {boolean} node whether it may import Node's own modules
 */

const source = 'language/src/';
const core = `${source}core/`;
const generated = `${source}generated/`;
const rules = `${source}rules/`;
const drawing = `${source}drawing/`;
const document = `${source}document/`;
const documentWriting = `${document}writing/`;
const player = `${source}player/`;
const format = `${source}format/`;
const lower = `${source}lower/`;
const protocol = `${source}protocol/`;
const workspace = `${source}workspace/`;
const services = `${source}services/`;
const server = `${source}server/`;
const index = `${source}index.ts`;
const withoutServices = [core, generated, rules, drawing, document, player, format, lower, workspace, protocol];
const languageServer = [
    'langium',
    'vscode-languageserver',
    'vscode-languageserver-protocol',
    'vscode-languageserver-textdocument',
    'vscode-languageserver-types',
    'vscode-uri',
];

/** Every area there is. A folder that has no line here fails a test. @type {Area[]} */
export const areas = [
    { path: core, may: [], packages: ['fraction.js'], node: false },
    { path: generated, may: [], packages: ['langium'], node: false },
    { path: rules, may: [core], packages: [], node: false },
    { path: drawing, may: [core], packages: [], node: false },
    { path: documentWriting, may: [core, document], packages: [], node: false },
    { path: document, may: [], mayTypes: [core], packages: [], node: false },
    { path: player, may: [], mayTypes: [document], packages: [], node: false },
    { path: format, may: [core, generated, lower], packages: ['langium'], node: false },
    { path: lower, may: [core, generated], packages: ['langium'], node: false },
    { path: workspace, may: [core, rules, lower], packages: [], node: false },
    { path: protocol, may: [], packages: [], node: false },
    { path: services, may: withoutServices, packages: languageServer, node: false },
    { path: server, may: [services], packages: languageServer, node: true },
    { path: index, may: withoutServices, packages: ['langium'], node: false },
    { path: `${source}object-group-by.ts`, may: [], packages: [], node: false },
    { path: 'cli/src/', may: [index], packages: [], node: true },
    { path: 'extension/src/webview/', may: [protocol], packages: [], node: false },
    { path: 'extension/src/', may: [protocol], packages: ['vscode', 'vscode-languageclient'], node: true },
];

/**
 * Finds the area that a file belongs to.
 *
 * @param {string} file a path relative to the top folder
 * @returns {Area | undefined} the first that fits, so that a folder inside another area can have its own line
 */
export function areaOf(file) {
    return areas.find(({ path }) => (path.endsWith('/') ? file.startsWith(path) : file === path));
}
