//! Everything that is known about a coast while it is furnished with names and marks.

use super::basin::{Ends, ends, filling};
use super::coast::Coast;
use super::dice::{Dice, Xy};
use super::drawn::Drawn;
use super::finds::{self, Berth, Island, Strait};
use super::flats::Flat;
use super::names::{Name, Names, words::Words};
use super::sketch::distance;
use super::survey::Survey;
use super::wishes::{Character, Wishes};
use crate::model::Ground;

/// How near to the shore's line a way to it may end, in metres.
const LAST: f64 = 2.0;

/// A coast, what it has to offer, and the names given so far.
pub(super) struct Scene<'a> {
    pub(super) wishes: &'a Wishes,
    pub(super) survey: &'a Survey<'a>,
    pub(super) coast: &'a Coast,
    pub(super) drawn: Drawn<'a>,
    /// The lands within the shores, in the order of the coast's shores.
    pub(super) islands: Vec<Island>,
    pub(super) berths: Vec<Berth>,
    /// The narrowest waters, each well apart from the next.
    pub(super) straits: Vec<Strait>,
    /// What each piece of drying ground is made of, in the coast's order.
    pub(super) grounds: Vec<Ground>,
    /// How large things are beside those of a chart of 30 by 22 km.
    pub(super) scale: f64,
    pub(super) dice: Dice,
    pub(super) names: Names,
}

impl<'a> Scene<'a> {
    pub(super) fn new(
        seed: u64,
        wishes: &'a Wishes,
        survey: &'a Survey<'a>,
        coast: &'a Coast,
        scale: f64,
    ) -> Self {
        let islands = finds::islands(survey, &coast.shores);
        let berths = finds::berths(survey, &coast.shores, 150.0);
        let straits = straits(wishes, survey, scale);
        let mut dice = Dice::new(seed, "furniture");
        let grounds = coast.flats.iter();
        let grounds = grounds.map(|flat| ground(wishes, survey, flat, &mut dice)).collect();
        let names = Names::new(seed, wishes.character);
        let drawn = Drawn::new(&coast.shores, &coast.lakes, survey.relief.size);
        Self { wishes, survey, coast, drawn, islands, berths, straits, grounds, scale, dice, names }
    }

    /// The words of its coast.
    pub(super) fn words(&self) -> &'static Words {
        self.names.words
    }

    /// A new name.
    pub(super) fn name(&mut self, forms: &[&'static str]) -> Name {
        self.names.name(forms)
    }

    /// Whether a boat comes straight to a berth from the node off it.
    pub(super) fn is_landing(&self, berth: &Berth) -> bool {
        let (at, node) = (berth.at, self.survey.relief.place(self.survey.relief.node(berth.off)));
        // The berth lies on the shore itself: the last metres are left out.
        let share = LAST / distance(at, node).max(LAST);
        let near = (at.0 + (node.0 - at.0) * share, at.1 + (node.1 - at.1) * share);
        !self.drawn.bars(near, node)
    }

    /// Whether a boat floats at a place, by the relief and by the shores that are drawn.
    pub(super) fn is_afloat(&self, at: Xy) -> bool {
        self.survey.is_reached(at) && !self.drawn.is_land(at)
    }

    /// The node nearest to a place, or else one beside it, where a boat floats; the place itself where
    /// there is none.
    pub(super) fn afloat_by(&self, at: Xy) -> Xy {
        let relief = self.survey.relief;
        let node = relief.node(at);
        let mut nodes = vec![node];
        relief.around(node, |beside| nodes.push(beside));
        let mut places = nodes.into_iter().map(|node| relief.place(node));
        places.find(|place| self.is_afloat(*place)).unwrap_or(at)
    }

    /// The piece of drying ground before a berth, if any.
    pub(super) fn flat_at(&self, berth: &Berth) -> Option<(&Flat, Ground)> {
        let off = (berth.at.0 + berth.seaward.0 * 45.0, berth.at.1 + berth.seaward.1 * 45.0);
        let flats = self.coast.flats.iter().zip(&self.grounds);
        flats.filter(|(f, _)| finds::contains(&f.edge, off)).map(|(f, g)| (f, *g)).next()
    }
}

/// The narrowest waters through which something runs, well apart.
fn straits(wishes: &Wishes, survey: &Survey<'_>, scale: f64) -> Vec<Strait> {
    const MOST: usize = 7;
    let all = |most: usize| {
        finds::spaced(finds::straits(survey), |s| -s.width, |s| s.at, 2_300.0 * scale, most)
    };
    if wishes.character == Character::Mixed {
        return all(MOST);
    }
    // The head of a creek is narrow too, but nothing runs there.
    let runs = |strait: &Strait| match ends(survey, strait.at, strait.through) {
        Ends::Open => true,
        Ends::Basin { ahead } => {
            let knots = filling(survey, (strait.at, strait.through), ahead, wishes.tide);
            knots.is_some_and(|knots| knots > 0.5 * wishes.tide.share())
        }
    };
    all(3 * MOST).into_iter().filter(runs).take(MOST).collect()
}

/// What a piece of drying ground is made of: what settles in shelter, what stands in the open.
fn ground(wishes: &Wishes, survey: &Survey<'_>, flat: &Flat, dice: &mut Dice) -> Ground {
    let step = (flat.nodes.len() / 4).max(1);
    let places: Vec<Xy> =
        flat.nodes.iter().step_by(step).map(|n| survey.relief.place(*n)).collect();
    let sum: f64 = places.iter().map(|p| survey.openness(*p)).sum();
    let openness = sum / (places.len() as f64).max(1.0);
    let size = flat.nodes.len();
    if matches!(wishes.character, Character::Lagoon | Character::Estuary) {
        return if openness < 0.45 { Ground::Mud } else { Ground::Sand };
    }
    if openness < 0.075 && size >= 30 {
        Ground::Mud
    } else if openness < 0.2 && size >= 8 {
        Ground::Sand
    } else if openness < 0.3 && size >= 5 && dice.chance(0.5) {
        Ground::Shingle
    } else if openness < 0.42 && dice.chance(0.4) {
        Ground::Boulders
    } else {
        Ground::Rock
    }
}
