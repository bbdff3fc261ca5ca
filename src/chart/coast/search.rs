//! Two ways through the tree: to everything that may matter, and to the best first.

use super::tree::{Block, FAN, LEVELS, Levels, Node, Some16};
use std::ops::ControlFlow;

/// The tree to search.
#[derive(Clone, Copy)]
pub(super) struct Search<'a> {
    pub(super) levels: &'a Levels,
    pub(super) blocks: &'a [Block],
}

/// Room for all that can wait at once: the children of one block of each level.
const WAITING: usize = FAN * LEVELS;

/// What waits to be looked at: the key in the upper half, so that numbers compare as keys do; runs
/// by their number, blocks after the runs.
type Entry = u64;

fn entry(key: f32, node: u32) -> Entry {
    // The bits of floats that are not negative have the order of the floats.
    (u64::from(key.to_bits()) << 32) | u64::from(node)
}

fn key_of(entry: Entry) -> f32 {
    f32::from_bits((entry >> 32) as u32)
}

impl Search<'_> {
    /// Visits, in their order, the runs below the children that `keep` keeps, until `run` breaks.
    pub(super) fn visit(
        &self,
        mut keep: impl FnMut(&Block) -> Some16,
        mut run: impl FnMut(usize) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        let Some(root) = self.levels.root() else { return ControlFlow::Continue(()) };
        let mut waiting = [0_u32; WAITING];
        let mut count = 1;
        waiting[0] = root as u32;
        while count > 0 {
            count -= 1;
            let block = waiting[count] as usize;
            let Some(bounds) = self.blocks.get(block) else { continue };
            let kept = keep(bounds);
            match self.levels.children(block) {
                (Node::Run(first), children) => {
                    for child in kept.first(children) {
                        run(first + child)?;
                    }
                }
                (Node::Block(first), children) => {
                    let bottom = count;
                    for child in kept.first(children) {
                        waiting[count] = (first + child) as u32;
                        count += 1;
                    }
                    // The first on top.
                    waiting[bottom..count].reverse();
                }
            }
        }
        ControlFlow::Continue(())
    }

    /// Visits runs by rising keys, as far as keys are no greater than the bound.
    ///
    /// `keys` gives each child of a block a number that is not negative, no greater than anything
    /// that the runs below it have to offer, and says which children may have something within the
    /// bound. `run` looks at a run and returns the bound from then on.
    pub(super) fn best_first(
        &self,
        mut bound: f32,
        mut keys: impl FnMut(&Block, f32) -> (Some16, [f32; FAN]),
        mut run: impl FnMut(usize) -> f32,
    ) {
        let Some(root) = self.levels.root() else { return };
        let runs = self.levels.runs;
        let mut waiting = [0; WAITING];
        let mut count = 1;
        waiting[0] = entry(0.0, (runs + root) as u32);
        while count > 0 {
            count -= 1;
            let next = waiting[count];
            if key_of(next) > bound {
                continue;
            }
            let node = next as u32 as usize;
            if node < runs {
                bound = run(node);
                continue;
            }
            let Some(block) = self.blocks.get(node - runs) else { continue };
            let (kept, keys) = keys(block, bound);
            let (first, children) = match self.levels.children(node - runs) {
                (Node::Run(first), children) => (first, children),
                (Node::Block(first), children) => (runs + first, children),
            };
            let bottom = count;
            for child in kept.first(children) {
                // Sorted in among its brothers, the best on top.
                let new = entry(keys[child], (first + child) as u32);
                let mut at = count;
                while at > bottom && waiting[at - 1] < new {
                    waiting[at] = waiting[at - 1];
                    at -= 1;
                }
                waiting[at] = new;
                count += 1;
            }
        }
    }
}
