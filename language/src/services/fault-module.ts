// Puts the language server together: Langium's parts, our parser, and the features of this folder.

import {
    createDefaultCoreModule,
    createDefaultSharedCoreModule,
    type DeepPartial,
    type FileSystemProvider,
    inject,
    type LangiumSharedCoreServices,
    type Module,
} from 'langium';
import {
    createDefaultLSPModule,
    createDefaultSharedLSPModule,
    type LangiumServices,
    type LangiumSharedServices,
} from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Rule } from '../core/findings/rule.js';
import { HalfsplitGeneratedModule, HalfsplitGeneratedSharedModule } from '../generated/module.js';
import { faultParserModule } from '../lower/parse/parser-module.js';
import { rules } from '../rules/index.js';
import { FaultDocumentBuilder } from './document-builder.js';
import { FaultDocumentFactory } from './document-factory.js';
import { FaultDocumentUpdateHandler } from './document-update-handler.js';
import { featureModule, sharedFeatureModule } from './feature-module.js';
import { Findings } from './findings.js';
import { FaultIndexManager } from './index-manager.js';
import { FaultLanguageServer } from './language-server.js';
import { FaultLinker, FaultScopeComputation } from './linker.js';
import { type Log, makeLog } from './log.js';
import { SettingsFiles } from './settings-files.js';
import { SettledChecks } from './settled-checks.js';
import { SourceLoader } from './source-loader.js';
import { FaultWorkspaceManager } from './workspace-manager.js';
import { Workspaces } from './workspaces.js';

/** What all features share, beside what Langium brings. */
export type HalfsplitSharedServices = LangiumSharedServices & {
    readonly workspace: {
        readonly LangiumDocumentFactory: FaultDocumentFactory;
        readonly WorkspaceManager: FaultWorkspaceManager;
    };
    readonly halfsplit: {
        readonly rules: readonly Rule[];
        readonly Log: Log;
        readonly Workspaces: Workspaces;
        readonly SourceLoader: SourceLoader;
        readonly SettingsFiles: SettingsFiles;
        readonly Findings: Findings;
        readonly SettledChecks: SettledChecks;
    };
};

/** The services of the language. */
export type HalfsplitServices = LangiumServices & { readonly shared: HalfsplitSharedServices };

/** What the server runs on: a connection where there is a client, and files. */
export interface HostContext {
    readonly connection?: Connection;
    readonly fileSystemProvider: (services: LangiumSharedCoreServices) => FileSystemProvider;
    /** The rules to ask; all there are where it is left out. */
    readonly rules?: readonly Rule[];
}

export interface HalfsplitContext {
    readonly shared: HalfsplitSharedServices;
    readonly fault: HalfsplitServices;
}

/** Makes the services and registers the language; nothing listens yet. */
export function createServices(context: HostContext): HalfsplitContext {
    const shared: HalfsplitSharedServices = inject(
        createDefaultSharedCoreModule(context),
        createDefaultSharedLSPModule(context),
        HalfsplitGeneratedSharedModule,
        sharedModule(context),
        sharedFeatureModule,
    );
    const fault: HalfsplitServices = inject(
        createDefaultCoreModule({ shared }),
        createDefaultLSPModule({ shared }),
        HalfsplitGeneratedModule,
        faultParserModule,
        linkingModule,
        featureModule,
    );
    shared.ServiceRegistry.register(fault);
    return { shared, fault };
}

type SharedModule = Module<HalfsplitSharedServices, DeepPartial<HalfsplitSharedServices>>;

function sharedModule(context: HostContext): SharedModule {
    return {
        workspace: {
            LangiumDocumentFactory: services => new FaultDocumentFactory(services),
            DocumentBuilder: services => new FaultDocumentBuilder(services),
            IndexManager: services => new FaultIndexManager(services.halfsplit.Workspaces),
            WorkspaceManager: services => new FaultWorkspaceManager(services),
        },
        lsp: {
            LanguageServer: services => new FaultLanguageServer(services),
            DocumentUpdateHandler: services => new FaultDocumentUpdateHandler(services),
        },
        halfsplit: {
            rules: () => context.rules ?? rules,
            Log: () => makeLog(context.connection),
            Workspaces: ({ workspace, halfsplit }) =>
                new Workspaces(workspace.LangiumDocumentFactory, workspace.FileSystemProvider, halfsplit.Log),
            SourceLoader: services => new SourceLoader(services),
            SettingsFiles: services => new SettingsFiles(services),
            Findings: services => new Findings(services),
            SettledChecks: services => new SettledChecks(services),
        },
    };
}

const linkingModule: Module<HalfsplitServices, DeepPartial<HalfsplitServices>> = {
    references: {
        Linker: services => new FaultLinker(services, services.shared.halfsplit.Workspaces),
        ScopeComputation: () => new FaultScopeComputation(),
    },
};
