//! The tree over the runs: bounds of sixteen neighbours in a block, of sixteen blocks in the next.
//!
//! Runs lie in the order of the shore, and a shore is coherent: what follows on it lies near. So
//! the tree needs no pointers, the numbers of the children follow from that of the block, and a
//! node is also a stretch of shore with two ends, which [`ashore`](super::land) makes use of.
//!
//! Bounds are rounded outwards to `f32`, four of which fit where two `f64` do; what is decided by
//! them is only what need not be looked at.

use bytemuck::{Pod, Zeroable};

/// Children in a block.
pub(super) const FAN: usize = 16;

/// Which of the children of a block: a bit each, the first the lowest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Some16(pub(super) u32);

impl Some16 {
    /// Those for which `is` holds. Without a branch, so that they are compared together.
    pub(super) fn of(is: impl Fn(usize) -> bool) -> Some16 {
        Some16((0..FAN).fold(0, |bits, child| bits | (u32::from(is(child)) << child)))
    }

    /// Those of the first `count`.
    pub(super) fn first(self, count: usize) -> Some16 {
        Some16(self.0 & ((1 << count) - 1))
    }

    /// Those of them for which `is` holds.
    pub(super) fn and(self, is: impl Fn(usize) -> bool) -> Some16 {
        Some16(self.filter(|child| is(*child)).fold(0, |bits, child| bits | (1 << child)))
    }
}

impl Iterator for Some16 {
    type Item = usize;

    fn next(&mut self) -> Option<usize> {
        let child = self.0.trailing_zeros();
        self.0 &= self.0.wrapping_sub(1);
        (child < u32::BITS).then_some(child as usize)
    }
}

/// More levels than the numbers of runs have digits of [`FAN`].
pub(super) const LEVELS: usize = 9;

/// The bounds of [`FAN`] neighbours, side by side so that they are compared together. Where there
/// are fewer, the rest are empty: their west is east of their east.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(crate) struct Block {
    pub(super) west: [f32; FAN],
    pub(super) south: [f32; FAN],
    pub(super) east: [f32; FAN],
    pub(super) north: [f32; FAN],
}

impl Block {
    pub(super) const EMPTY: Block = Block {
        west: [f32::INFINITY; FAN],
        south: [f32::INFINITY; FAN],
        east: [f32::NEG_INFINITY; FAN],
        north: [f32::NEG_INFINITY; FAN],
    };

    /// West, south, east, north of all its children.
    pub(super) fn bounds(&self) -> [f32; 4] {
        let least = |values: &[f32; FAN]| values.iter().copied().fold(f32::INFINITY, f32::min);
        let most = |values: &[f32; FAN]| values.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        [least(&self.west), least(&self.south), most(&self.east), most(&self.north)]
    }

    pub(super) fn set(&mut self, child: usize, [west, south, east, north]: [f32; 4]) {
        self.west[child] = west;
        self.south[child] = south;
        self.east[child] = east;
        self.north[child] = north;
    }
}

/// The greatest `f32` that is not above `value`.
pub(super) fn down(value: f64) -> f32 {
    let near = value as f32;
    if f64::from(near) > value { near.next_down() } else { near }
}

/// The least `f32` that is not below `value`.
pub(super) fn up(value: f64) -> f32 {
    let near = value as f32;
    if f64::from(near) < value { near.next_up() } else { near }
}

/// Where the levels of a tree over so many runs lie among its blocks: the lowest first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    pub(super) runs: usize,
    /// The first block of each level, and after the top one the number of all blocks.
    starts: [usize; LEVELS + 1],
    height: usize,
}

/// A run, or a block of the tree: the children of a block.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Node {
    Run(usize),
    Block(usize),
}

impl Levels {
    pub(super) fn over(runs: usize) -> Levels {
        let mut levels = Levels { runs, starts: [0; LEVELS + 1], height: 0 };
        let mut count = runs;
        while (count > 1 || levels.height == 0) && count > 0 && levels.height < LEVELS {
            count = count.div_ceil(FAN);
            levels.starts[levels.height + 1] = levels.starts[levels.height] + count;
            levels.height += 1;
        }
        levels
    }

    /// How many blocks the tree has.
    pub(super) fn blocks(&self) -> usize {
        self.starts[self.height]
    }

    /// The block that all others are below, if there is a run.
    pub(super) fn root(&self) -> Option<usize> {
        self.blocks().checked_sub(1)
    }

    /// The level of a block, 0 above the runs.
    fn level(&self, block: usize) -> usize {
        let upper = self.starts[1..self.height].iter();
        upper.take_while(|start| block >= **start).count()
    }

    /// The first child of a block, and how many it has.
    pub(super) fn children(&self, block: usize) -> (Node, usize) {
        let level = self.level(block);
        let child = (block - self.starts[level]) * FAN;
        if level == 0 {
            return (Node::Run(child), (self.runs - child).min(FAN));
        }
        let count = self.starts[level] - self.starts[level - 1];
        (Node::Block(self.starts[level - 1] + child), (count - child).min(FAN))
    }

    /// The runs below a block: the first, and the one after the last.
    pub(super) fn runs_below(&self, block: usize) -> (usize, usize) {
        let level = self.level(block);
        let each = FAN.pow(level as u32 + 1);
        let first = (block - self.starts[level]) * each;
        (first, (first + each).min(self.runs))
    }
}

/// All blocks, of those over the runs and of how they lie.
pub(super) fn grow(levels: &Levels, bottom: Vec<Block>) -> Vec<Block> {
    let mut blocks = bottom;
    blocks.resize(levels.blocks(), Block::EMPTY);
    for level in 1..levels.height {
        let (below, above) = blocks.split_at_mut(levels.starts[level]);
        let children = &below[levels.starts[level - 1]..];
        for (index, child) in children.iter().enumerate() {
            above[index / FAN].set(index % FAN, child.bounds());
        }
    }
    blocks
}

/// West, south, east, north of points, rounded outwards.
pub(super) fn around(points: &[crate::Point]) -> [f32; 4] {
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for p in points {
        low = [low[0].min(p.x), low[1].min(p.y)];
        high = [high[0].max(p.x), high[1].max(p.y)];
    }
    [down(low[0]), down(low[1]), up(high[0]), up(high[1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_run_is_below_one_block_of_each_level() {
        for runs in [0, 1, 2, 15, 16, 17, 255, 256, 257, 4096, 5000, 70_000] {
            let levels = Levels::over(runs);
            let Some(root) = levels.root() else {
                assert_eq!(runs, 0);
                continue;
            };
            assert_eq!(levels.runs_below(root), (0, runs));
            let mut seen = vec![0; runs];
            let mut open = vec![root];
            while let Some(block) = open.pop() {
                let (first, count) = levels.children(block);
                assert!((1..=FAN).contains(&count), "{runs} {block} {count}");
                match first {
                    Node::Run(run) => (run..run + count).for_each(|run| seen[run] += 1),
                    Node::Block(block) => open.extend(block..block + count),
                }
            }
            assert!(seen.iter().all(|times| *times == 1), "{runs}");
        }
    }

    #[test]
    fn rounding_outwards() {
        for value in [0.0, 0.1, -0.1, 6_300_000.123, -1e300, 1e300, 16_777_217.0] {
            assert!(f64::from(down(value)) <= value && value <= f64::from(up(value)), "{value}");
        }
    }
}
