/** Turns the table of import directions into the rules that dependency-cruiser checks on the resolved imports. */
import { areas } from './tests/house/import-directions.mjs';

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
    forbidden: [
        ...areas.map(toRule),
        ...areas.filter(area => area.mayTypes !== undefined).map(toTypesRule),
        {
            name: 'no-circle',
            comment: 'Files that import each other in a circle cannot be understood one at a time.',
            severity: 'error',
            from: { path: '^(language|cli|extension)/src/' },
            to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
        },
        {
            name: 'no-unknown-module',
            comment: 'Every import leads to a file or an installed package.',
            severity: 'error',
            from: {},
            to: { couldNotResolve: true, pathNot: '^vscode$' },
        },
    ],
    options: {
        doNotFollow: { path: 'node_modules' },
        exclude: { path: '(^|/)(dist|\\.build)/' },
        tsPreCompilationDeps: true,
        tsConfig: { fileName: 'tsconfig.json' },
        enhancedResolveOptions: {
            exportsFields: ['exports'],
            conditionNames: ['halfsplit-source', 'types', 'import', 'require', 'node', 'default'],
        },
    },
};

/** @param {import('./tests/house/import-directions.mjs').Area} area */
function toRule(area) {
    const inner = areas.filter(other => other !== area && other.path.startsWith(area.path));
    return {
        name: `only-what-${area.path}-may-import`,
        comment: `The table of import directions names all that ${area.path} may import.`,
        severity: /** @type {const} */ ('error'),
        from: { path: `^${escape(area.path)}`, pathNot: inner.map(other => `^${escape(other.path)}`) },
        to: {
            pathNot: [
                ...[area.path, ...area.may, ...(area.mayTypes ?? [])].map(path => `^${escape(path)}`),
                ...area.packages.map(name => `(^|/)node_modules/(@types/)?${escape(name)}/|^${escape(name)}$`),
                ...(area.node ? ['^node:', '(^|/)node_modules/@types/node/'] : []),
            ],
            ...(area.node ? { dependencyTypesNot: [/** @type {const} */ ('core')] } : {}),
        },
    };
}

/** @param {import('./tests/house/import-directions.mjs').Area} area */
function toTypesRule(area) {
    const inner = areas.filter(other => other !== area && other.path.startsWith(area.path));
    return {
        name: `only-types-for-${area.path}`,
        comment: `Of some areas ${area.path} may import the types alone.`,
        severity: /** @type {const} */ ('error'),
        from: { path: `^${escape(area.path)}`, pathNot: inner.map(other => `^${escape(other.path)}`) },
        to: {
            path: (area.mayTypes ?? []).map(path => `^${escape(path)}`),
            dependencyTypesNot: [/** @type {const} */ ('type-only')],
        },
    };
}

/** @param {string} text to be taken literally in a regular expression */
function escape(text) {
    return text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
}
