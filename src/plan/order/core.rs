//! The problem as the search sees it: blocks of adjacent operations in a topological order, tightened rules, costs
//! above the unavoidable.

use super::index::{Indexed, Link};
use super::relations::{Contradiction, Relations};
use super::set::{Bits, Set};

/// Operations done one right after the other in one setup; most blocks are a single operation.
#[derive(Debug, Clone)]
pub(super) struct Block {
    /// Operation numbers in the order done.
    pub(super) members: Vec<usize>,
    pub(super) first_tool: usize,
    pub(super) last_tool: usize,
    /// Cost of the tool changes inside.
    pub(super) inner: u64,
    /// Setups in the order preferred.
    pub(super) preferred: Vec<usize>,
}

impl Block {
    /// Whether it takes one tool throughout.
    pub(super) fn one_tool(&self) -> bool {
        self.first_tool == self.last_tool && self.inner == 0
    }
}

/// The prepared problem; blocks are numbered so that whatever must come before has a smaller number.
#[derive(Debug, Clone)]
pub(super) struct Core<const W: usize> {
    pub(super) blocks: Vec<Block>,
    pub(super) setups: usize,
    pub(super) tools: usize,
    pub(super) all: Set<W>,
    pub(super) rules: Relations<W>,
    /// By block: its group in `rules.groups`.
    pub(super) group: Vec<Option<usize>>,
    /// By group: its members and all that comes before any of them.
    pub(super) group_needs: Vec<Set<W>>,
    /// By setup: the blocks it can do.
    pub(super) users: Vec<Set<W>>,
    /// Mask of the setups that no other can stand in for.
    pub(super) worth: u128,
    /// Blocks that end some setup.
    pub(super) enders: Set<W>,
    /// Blocks that wait for another in some setup.
    pub(super) gated: Set<W>,
    /// `setup * tools + tool`: blocks that take just this tool and cost no more here than anywhere.
    pub(super) cell: Vec<Set<W>>,
    /// `block * setups + setup`: cost above `base`.
    pub(super) extra: Vec<u64>,
    /// `from * setups + to`
    pub(super) change: Vec<u64>,
    pub(super) first: Vec<u64>,
    pub(super) tool_change: u64,
    pub(super) tool_first: u64,
    pub(super) tool_kept: bool,
    /// Sum of what each block costs at least.
    pub(super) base: u64,
}

impl<const W: usize> Core<W> {
    /// Prepares `indexed` under `links` (its own, or fewer).
    pub(super) fn prepare(indexed: &Indexed, links: &[Link]) -> Result<Self, Contradiction> {
        let blocks = chains(indexed, links)?;
        let mut rules = relate(indexed, links, &blocks)?;
        rules.tighten()?;
        let order = topological(&rules, &blocks);
        let (blocks, rules) = renumber(blocks, &rules, &order);
        Ok(Self::assemble(indexed, blocks, rules))
    }

    fn assemble(indexed: &Indexed, blocks: Vec<Block>, rules: Relations<W>) -> Self {
        let (n, setups, tools) = (blocks.len(), indexed.setups, indexed.tools);
        let mut extra = vec![0; n * setups];
        let mut base = 0;
        for (i, block) in blocks.iter().enumerate() {
            let in_setup = |s| block.members.iter().map(|&m| indexed.ops[m].cost[s]).sum::<u64>();
            let least = Bits(rules.allowed[i]).map(in_setup).min().unwrap_or(0);
            base += least;
            for s in Bits(rules.allowed[i]) {
                extra[i * setups + s] = in_setup(s) - least + block.inner;
            }
        }
        let detours = detours(indexed);
        let mut users = vec![Set::EMPTY; setups];
        let mut cell = vec![Set::EMPTY; setups * tools];
        for (i, block) in blocks.iter().enumerate() {
            for s in Bits(rules.allowed[i]) {
                users[s].insert(i);
                if block.one_tool() && extra[i * setups + s] == 0 && rules.allowed[i] & detours == 0 {
                    cell[s * tools + block.first_tool].insert(i);
                }
            }
        }
        let mut core = Self {
            setups,
            tools,
            all: Set::first(n),
            group: Vec::new(),
            group_needs: Vec::new(),
            users,
            worth: 0,
            enders: rules.ends.iter().fold(Set::EMPTY, Set::or),
            gated: rules.gates.iter().flatten().fold(Set::EMPTY, |all, (_, those)| all.or(those)),
            cell,
            extra,
            change: indexed.change.clone(),
            first: indexed.first.clone(),
            tool_change: indexed.tool_change,
            tool_first: indexed.tool_first,
            tool_kept: indexed.tool_kept,
            base,
            blocks,
            rules,
        };
        core.derive();
        core
    }

    /// Works out what follows from the rest.
    pub(super) fn derive(&mut self) {
        let groups = &self.rules.groups;
        self.group = (0..self.blocks.len()).map(|i| groups.iter().position(|group| group.contains(i))).collect();
        self.group_needs =
            groups.iter().map(|group| group.iter().fold(*group, |all, i| all.or(&self.rules.before[i]))).collect();
        self.worth = (0..self.setups).filter(|&s| !self.replaceable(s)).fold(0, |mask, s| mask | 1 << s);
    }

    /// Whether another setup is as good for everything; of two that are equally good the first is kept.
    fn replaceable(&self, setup: usize) -> bool {
        let better = |&other: &usize| {
            other != setup && self.stands_in(other, setup) && (other < setup || !self.stands_in(setup, other))
        };
        (0..self.setups).any(|other| better(&other))
    }

    /// Whether what a gate of another setup asks of those that could be done in `setup` is asked of them there too.
    fn waited_for(&self, (first, waiting): &(usize, Set<W>), setup: usize) -> bool {
        let here = self.rules.gates[setup].iter().find(|(f, _)| f == first);
        let spared = waiting.and(&self.users[setup]);
        self.rules.needs[setup].contains(*first) || here.map_or(spared, |(_, those)| spared.minus(those)).is_empty()
    }

    /// Whether `a` can take the place of `b` wherever that is used, at no more cost.
    fn stands_in(&self, a: usize, b: usize) -> bool {
        let n = self.setups;
        let extra = |i: usize, s: usize| self.extra[i * n + s];
        let change = |from: usize, to: usize| self.change[from * n + to];
        self.users[b].is_subset(&self.users[a])
            && self.rules.needs[a].is_subset(&self.rules.needs[b])
            && self.rules.ends[a].is_subset(&self.rules.ends[b])
            && self.first[a] <= self.first[b]
            && self.users[b].iter().all(|i| extra(i, a) <= extra(i, b))
            && self.rules.gates[a].iter().all(|gate| self.waited_for(gate, b))
            && (0..n)
                .filter(|&s| s != a && s != b)
                .all(|s| change(s, a) <= change(s, b) && change(a, s) <= change(b, s))
    }
}

/// Setups through which a change can be cheaper than going straight. Bringing a block forward might then take away
/// the reason to pass there, so nothing done there is moved.
fn detours(indexed: &Indexed) -> u128 {
    let n = indexed.setups;
    let cost = |from: usize, to: usize| indexed.change[from * n + to];
    let mut mask = 0;
    for via in 0..n {
        let cheaper = |from: usize| (0..n).any(|to| cost(from, via) + cost(via, to) < cost(from, to));
        if (0..n).any(cheaper) {
            mask |= 1 << via;
        }
    }
    mask
}

/// Strings the adjacent operations together.
fn chains(indexed: &Indexed, links: &[Link]) -> Result<Vec<Block>, Contradiction> {
    let n = indexed.ops.len();
    let (mut next, mut previous) = (vec![None; n], vec![None; n]);
    for link in links {
        if let Link::Adjacent(a, b) = *link {
            if next[a].is_some_and(|x| x != b) || previous[b].is_some_and(|x| x != a) {
                return Err(Contradiction);
            }
            (next[a], previous[b]) = (Some(b), Some(a));
        }
    }
    let mut blocks = Vec::new();
    let mut placed = 0;
    for head in (0..n).filter(|&i| previous[i].is_none()) {
        let members: Vec<usize> = std::iter::successors(Some(head), |&i| next[i]).collect();
        placed += members.len();
        blocks.push(block(indexed, members));
    }
    // What is left over goes round in a circle.
    if placed < n { Err(Contradiction) } else { Ok(blocks) }
}

fn block(indexed: &Indexed, members: Vec<usize>) -> Block {
    let tool = |&m: &usize| indexed.ops[m].tool;
    let swaps = members.windows(2).filter(|pair| tool(&pair[0]) != tool(&pair[1])).count() as u64;
    Block {
        first_tool: members.first().map_or(0, tool),
        last_tool: members.last().map_or(0, tool),
        inner: swaps * indexed.tool_change,
        preferred: members.first().map_or_else(Vec::new, |&m| indexed.ops[m].setups.clone()),
        members,
    }
}

/// The rules between operations as rules between blocks.
fn relate<const W: usize>(indexed: &Indexed, links: &[Link], blocks: &[Block]) -> Result<Relations<W>, Contradiction> {
    let mut place = vec![(0, 0); indexed.ops.len()];
    for (b, block) in blocks.iter().enumerate() {
        for (position, &m) in block.members.iter().enumerate() {
            place[m] = (b, position);
        }
    }
    let mut rules = Relations {
        before: vec![Set::EMPTY; blocks.len()],
        allowed: blocks
            .iter()
            .map(|b| b.members.iter().fold(u128::MAX, |mask, &m| mask & indexed.ops[m].mask))
            .collect(),
        needs: vec![Set::EMPTY; indexed.setups],
        ends: vec![Set::EMPTY; indexed.setups],
        gates: vec![Vec::new(); indexed.setups],
        groups: Vec::new(),
    };
    for link in links {
        match *link {
            Link::Before(a, b) if place[a].0 != place[b].0 => {
                rules.before[place[b].0].insert(place[a].0);
            }
            Link::Before(a, b) if place[a].1 >= place[b].1 => return Err(Contradiction),
            Link::Together(a, b) if place[a].0 != place[b].0 => {
                rules.groups.push(Set::of([place[a].0, place[b].0]));
            }
            Link::Needs(s, a) => rules.needs[s].insert(place[a].0),
            Link::Gate(s, a, b) if place[a].0 != place[b].0 => rules.gate(s, place[a].0, place[b].0),
            // Both in one block: as it stands, or never there.
            Link::Gate(s, a, b) if place[a].1 <= place[b].1 => rules.allowed[place[a].0] &= !(1 << s),
            Link::Before(..) | Link::Together(..) | Link::Adjacent(..) | Link::Gate(..) => {}
            Link::Ends(s, a) => {
                let (b, position) = place[a];
                rules.ends[s].insert(b);
                // The rest of the block would still be in the setup that has ended.
                if position + 1 < blocks[b].members.len() {
                    rules.allowed[b] &= !(1 << s);
                }
            }
        }
    }
    if rules.allowed.contains(&0) { Err(Contradiction) } else { Ok(rules) }
}

/// A topological order that keeps to the listed one where it can.
fn topological<const W: usize>(rules: &Relations<W>, blocks: &[Block]) -> Vec<usize> {
    // With a transitive relation, fewer blocks before always means earlier.
    let mut order: Vec<usize> = (0..blocks.len()).collect();
    order.sort_by_key(|&i| (rules.before[i].len(), blocks[i].members.first().copied()));
    order
}

fn renumber<const W: usize>(
    mut blocks: Vec<Block>,
    rules: &Relations<W>,
    order: &[usize],
) -> (Vec<Block>, Relations<W>) {
    let mut fresh = vec![0; order.len()];
    for (new, &old) in order.iter().enumerate() {
        fresh[old] = new;
    }
    let set = |old: &Set<W>| Set::of(old.iter().map(|i| fresh[i]));
    let rules = Relations {
        before: order.iter().map(|&old| set(&rules.before[old])).collect(),
        allowed: order.iter().map(|&old| rules.allowed[old]).collect(),
        needs: rules.needs.iter().map(set).collect(),
        ends: rules.ends.iter().map(set).collect(),
        gates: rules.gates.iter().map(|list| list.iter().map(|(f, those)| (fresh[*f], set(those))).collect()).collect(),
        groups: rules.groups.iter().map(set).collect(),
    };
    let mut slots: Vec<Option<Block>> = blocks.drain(..).map(Some).collect();
    let blocks = order.iter().filter_map(|&old| slots[old].take()).collect();
    (blocks, rules)
}
