//! The ridges, cuts and shelves of a sketch near a square of places.
//!
//! What is too far from the whole square to change a height in it is left out once for all of its
//! places; the rest is reckoned for a row of places side by side, which becomes arithmetic on several
//! numbers at once. Every height is to the last bit what it would be with nothing left out.

use super::bold::smooth_max;
use super::dice::Xy;
use super::sketch::{Ridge, Shelf, Sketch, Stop, distance};

/// So many places stand side by side in a row, and so many rows make a square.
pub(super) const SIDE: usize = 8;

/// Figures of a row of places.
pub(super) type Row = [f64; SIDE];

/// Where no ridge is near, in metres above high water.
const SEA_BED: f64 = -70.0;
/// Ridges whose heights differ by less run into each other, in metres.
pub(super) const ROUNDING: f64 = 26.0;
/// Where no channel is near.
const NO_VALLEY: f64 = 400.0;
/// How deep the ground falls far from a ridge, and how far from it half of that.
const FALL: (f64, f64) = (80.0, 1_250.0);
/// More than any bound of a height can err by, in metres.
const SLACK: f64 = 0.01;

/// A disc about the places of a square.
#[derive(Debug, Clone, Copy)]
pub(super) struct Disc {
    middle: Xy,
    radius: f64,
}

impl Disc {
    /// The disc about the box of some places.
    pub(super) fn about(places: impl Iterator<Item = Xy>) -> Self {
        let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for at in places {
            low = (low.0.min(at.0), low.1.min(at.1));
            high = (high.0.max(at.0), high.1.max(at.1));
        }
        let middle = ((low.0 + high.0) / 2.0, (low.1 + high.1) / 2.0);
        Self { middle, radius: distance(low, high) / 2.0 + SLACK }
    }
}

/// A straight line from end to end.
struct Line {
    from: Xy,
    way: Xy,
    /// The square of its length.
    square: f64,
}

impl Line {
    fn new(from: Xy, to: Xy) -> Self {
        let way = (to.0 - from.0, to.1 - from.1);
        let square = way.0 * way.0 + way.1 * way.1;
        // Of a line of no length, its first end is nearest to every place.
        Self { from, way, square: if square > 0.0 { square } else { f64::INFINITY } }
    }

    /// How far a place is from it, and how far along the nearest point lies (0 to 1).
    fn to(&self, (x, y): Xy) -> (f64, f64) {
        let t = ((x - self.from.0) * self.way.0 + (y - self.from.1) * self.way.1) / self.square;
        let t = t.clamp(0.0, 1.0);
        let (dx, dy) = (x - (self.from.0 + self.way.0 * t), y - (self.from.1 + self.way.1 * t));
        ((dx * dx + dy * dy).sqrt(), t)
    }

    /// Between which distances from it all places of a disc lie.
    fn distances(&self, disc: &Disc) -> Xy {
        let middle = self.to(disc.middle).0;
        ((middle - disc.radius).max(0.0), middle + disc.radius)
    }
}

/// A figure at a line's ends.
struct Span {
    first: f64,
    change: f64,
}

impl Span {
    fn new(first: f64, last: f64) -> Self {
        Self { first, change: last - first }
    }

    fn at(&self, t: f64) -> f64 {
        self.first + self.change * t
    }

    fn least(&self) -> f64 {
        self.first + self.change.min(0.0)
    }

    fn greatest(&self) -> f64 {
        self.first + self.change.max(0.0)
    }
}

/// A ridge made ready.
struct Hill {
    line: Line,
    radius: Span,
    height: f64,
}

impl Hill {
    fn new(ridge: &Ridge) -> Self {
        let radius = Span::new(ridge.radius.0, ridge.radius.1);
        Self { line: Line::new(ridge.from, ridge.to), radius, height: ridge.height }
    }

    /// Its height so far from its line: the less the farther, the more the wider it is.
    fn height(&self, off: f64, radius: f64) -> f64 {
        let u = off / radius;
        let rest = 1.0 - u * u;
        let within = self.height * rest * (0.42 + 0.58 * rest);
        let beyond = -FALL.0 * (1.0 - 1.0 / (1.0 + (off - radius) / FALL.1));
        if rest > 0.0 { within } else { beyond }
    }

    /// The least and the greatest that its height can be in a disc.
    fn bounds(&self, disc: &Disc) -> Xy {
        let (near, far) = self.line.distances(disc);
        let (least, greatest) = (self.radius.least(), self.radius.greatest());
        (self.height(far, least) - SLACK, self.height(near, greatest) + SLACK)
    }

    fn raise(&self, tops: &mut Row, xs: &Row, ys: &Row) {
        for ((top, x), y) in tops.iter_mut().zip(xs).zip(ys) {
            let (off, t) = self.line.to((*x, *y));
            *top = smooth_max(*top, self.height(off, self.radius.at(t)), ROUNDING);
        }
    }
}

/// A stretch of a channel made ready.
struct Cut {
    line: Line,
    reach: Span,
    floor: Span,
    bank: f64,
}

impl Cut {
    fn new(a: &Stop, b: &Stop, bank: f64) -> Self {
        let (reach, floor) = (Span::new(a.reach, b.reach), Span::new(a.floor, b.floor));
        Self { line: Line::new(a.at, b.at), reach, floor, bank }
    }

    /// No less than the least that it can be in a disc, and no less than the greatest.
    fn bounds(&self, disc: &Disc) -> Xy {
        let (near, far) = self.line.distances(disc);
        // Within its reach it lies at its floor or higher; beyond, it rises as its bank does.
        let beyond = self.bank * (near - self.reach.greatest());
        let least = if beyond > 0.0 { beyond } else { f64::MIN };
        let most = self.bank * (far - self.reach.least());
        (least - SLACK, most.max(self.floor.greatest()).max(0.0) + SLACK)
    }

    fn lower(&self, lows: &mut Row, xs: &Row, ys: &Row) {
        for ((low, x), y) in lows.iter_mut().zip(xs).zip(ys) {
            let (off, t) = self.line.to((*x, *y));
            let (reach, floor) = (self.reach.at(t), self.floor.at(t));
            let u = off / reach;
            let (within, beyond) = (floor * (1.0 - u * u), self.bank * (off - reach));
            *low = low.min(if u < 1.0 { within } else { beyond });
        }
    }
}

/// All bold lines of a sketch made ready.
pub(super) struct Lines<'a> {
    hills: Vec<Hill>,
    cuts: Vec<Cut>,
    shelves: &'a [Shelf],
}

/// Those near a square.
pub(super) struct Near<'a> {
    hills: Vec<&'a Hill>,
    cuts: Vec<&'a Cut>,
    shelves: Vec<&'a Shelf>,
    /// No ridge stands higher there.
    top: f64,
}

impl<'a> Lines<'a> {
    pub(super) fn new(sketch: &'a Sketch) -> Self {
        let pairs = sketch.channels.iter().flat_map(|channel| channel.path.windows(2));
        let cut = |pair: &[Stop]| Cut::new(&pair[0], &pair[1], sketch.style.bank);
        Self {
            hills: sketch.ridges.iter().map(Hill::new).collect(),
            cuts: pairs.map(cut).collect(),
            shelves: &sketch.shelves,
        }
    }

    /// Those that may change a height in a disc.
    pub(super) fn near(&self, disc: &Disc) -> Near<'_> {
        let (mut hills, mut foot, mut top) = (Vec::new(), SEA_BED, SEA_BED);
        for hill in &self.hills {
            let (least, greatest) = hill.bounds(disc);
            top = smooth_max(top, greatest, ROUNDING) + SLACK;
            // One that stands lower by more than the rounding changes nothing.
            if greatest > foot - ROUNDING {
                foot = smooth_max(foot, least, ROUNDING) - SLACK;
                hills.push(hill);
            }
        }
        let bounds: Vec<Xy> = self.cuts.iter().map(|cut| cut.bounds(disc)).collect();
        let lowest = bounds.iter().fold(NO_VALLEY, |low, (_, most)| low.min(*most));
        let cuts = self.cuts.iter().zip(bounds).filter(|(_, (least, _))| *least <= lowest);
        let cuts = cuts.map(|(cut, _)| cut).collect();
        let reaches =
            |s: &&Shelf| distance(s.middle, disc.middle) < SHELF * s.radius + disc.radius + SLACK;
        Near { hills, cuts, shelves: self.shelves.iter().filter(reaches).collect(), top }
    }
}

impl Near<'_> {
    /// The height of the ridges at a row of places, and of the sea bed between them, where the ground
    /// about them is as high as `others`: where that stands higher everywhere by more than the
    /// rounding, they do not matter, and are not reckoned.
    pub(super) fn base(&self, xs: &Row, ys: &Row, others: &Row) -> Row {
        let mut tops = [SEA_BED; SIDE];
        if others.iter().any(|other| *other < self.top + ROUNDING) {
            self.hills.iter().for_each(|hill| hill.raise(&mut tops, xs, ys));
        }
        tops
    }

    /// The height of the valleys that channels cut, far above the ground where there is none.
    pub(super) fn valley(&self, xs: &Row, ys: &Row) -> Row {
        let mut lows = [NO_VALLEY; SIDE];
        self.cuts.iter().for_each(|cut| cut.lower(&mut lows, xs, ys));
        lows
    }

    /// How much of a skerry shelf each place is, 0 to 1.
    pub(super) fn shelf(&self, at: Xy) -> f64 {
        self.shelves.iter().fold(0.0_f64, |most, shelf| most.max(plateau(shelf, at)))
    }
}

/// How far beyond its radius a shelf reaches.
const SHELF: f64 = 1.35;

fn plateau(shelf: &Shelf, at: Xy) -> f64 {
    let u = distance(at, shelf.middle) / (SHELF * shelf.radius);
    let rest = (1.0 - u * u).max(0.0);
    rest * (2.0 - rest)
}
