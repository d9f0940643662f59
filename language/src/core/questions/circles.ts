// Finds circles: things that lead to each other until they come back to where they began.

/** One step of a circle: from a thing by something (a `uses`, a `follow`, a `feeds`) to the next. */
export interface Link<Node, By> {
    readonly from: Node;
    readonly by: By;
    readonly to: Node;
}

/**
 * One shortest circle out of each group of things that lead to each other; the links of a circle are in its order.
 * It begins at the first of its group in the order given. `closes` can refuse a circle that only looks like one;
 * then the other links of its group are tried, each with its shortest circle.
 */
export function findCircles<Node, By>(
    nodes: readonly Node[],
    linksFrom: (node: Node) => readonly Link<Node, By>[],
    closes: (circle: readonly Link<Node, By>[]) => boolean = () => true,
): Link<Node, By>[][] {
    const circles: Link<Node, By>[][] = [];
    for (const group of groupsOf(nodes, linksFrom)) {
        const inGroup = new Set(group);
        const links = group.flatMap(node => linksFrom(node).filter(link => inGroup.has(link.to)));
        const circle = firstCircle(links, inGroup, linksFrom, closes);
        if (circle) circles.push(circle);
    }
    return circles;
}

/** How many links of a group are tried for a circle that really closes. */
const mostTries = 100;

function firstCircle<Node, By>(
    links: readonly Link<Node, By>[],
    inGroup: ReadonlySet<Node>,
    linksFrom: (node: Node) => readonly Link<Node, By>[],
    closes: (circle: readonly Link<Node, By>[]) => boolean,
): Link<Node, By>[] | undefined {
    for (const link of links.slice(0, mostTries)) {
        const circle = [link, ...shortestWay(link.to, link.from, inGroup, linksFrom)];
        if (closes(circle)) return circle;
    }
    return undefined;
}

/** The links from one thing to another within a group, the fewest there are; empty where both are the same. */
function shortestWay<Node, By>(
    start: Node,
    goal: Node,
    inGroup: ReadonlySet<Node>,
    linksFrom: (node: Node) => readonly Link<Node, By>[],
): Link<Node, By>[] {
    const cameBy = new Map<Node, Link<Node, By> | undefined>([[start, undefined]]);
    // The loop also visits what it adds, nearest first.
    for (const node of cameBy.keys()) {
        if (node === goal) break;
        for (const link of linksFrom(node)) {
            if (inGroup.has(link.to) && !cameBy.has(link.to)) cameBy.set(link.to, link);
        }
    }
    const way: Link<Node, By>[] = [];
    for (let link = cameBy.get(goal); link; link = cameBy.get(link.from)) way.push(link);
    return way.reverse();
}

/**
 * The groups of things that lead to each other (the strongly connected components that hold a circle),
 * by Tarjan's algorithm (SIAM Journal on Computing 1, 1972), without recursion. Each group is in the order given.
 */
function groupsOf<Node, By>(nodes: readonly Node[], linksFrom: (node: Node) => readonly Link<Node, By>[]): Node[][] {
    const order = new Map(nodes.map((node, index) => [node, index]));
    const found = new Map<Node, number>();
    const lowest = new Map<Node, number>();
    const open: Node[] = [];
    const isOpen = new Set<Node>();
    const groups: Node[][] = [];

    const enter = (node: Node): Visit<Node, By> => {
        found.set(node, found.size);
        lowest.set(node, found.size - 1);
        open.push(node);
        isOpen.add(node);
        return { node, links: linksFrom(node), next: 0 };
    };
    const lower = (node: Node, to: number | undefined): void => {
        if (to !== undefined && to < (lowest.get(node) ?? 0)) lowest.set(node, to);
    };
    const close = (node: Node): void => {
        if (lowest.get(node) !== found.get(node)) return;
        const group = open.splice(open.lastIndexOf(node));
        for (const member of group) isOpen.delete(member);
        const isCircle = group.length > 1 || linksFrom(node).some(link => link.to === node);
        if (isCircle) groups.push(group.sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0)));
    };

    for (const root of nodes) {
        const visits = found.has(root) ? [] : [enter(root)];
        for (let visit = visits.at(-1); visit; visit = visits.at(-1)) {
            const link = visit.links[visit.next++];
            if (!link) {
                visits.pop();
                close(visit.node);
                const above = visits.at(-1);
                if (above) lower(above.node, lowest.get(visit.node));
            } else if (!found.has(link.to)) {
                visits.push(enter(link.to));
            } else if (isOpen.has(link.to)) {
                lower(visit.node, found.get(link.to));
            }
        }
    }
    return groups.sort((a, b) => firstIn(a, order) - firstIn(b, order));
}

interface Visit<Node, By> {
    readonly node: Node;
    readonly links: readonly Link<Node, By>[];
    next: number;
}

function firstIn<Node>(group: readonly Node[], order: ReadonlyMap<Node, number>): number {
    const [first] = group;
    return first === undefined ? 0 : (order.get(first) ?? 0);
}
