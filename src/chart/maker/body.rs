//! The large bodies of a coast: a mainland that leads off the chart, the sand and mud before it.

use super::dice::{Noise, Xy};
use super::frame::Frame;

/// A line along a coast: so far off the land's side, with bends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course {
    /// Metres off the land's side in its middle.
    pub(super) off: f64,
    /// How much farther off it is for each metre along beyond the middle.
    pub(super) slant: f64,
    pub(super) middle: f64,
    /// Its bends: noise and how far it leads aside, in metres.
    pub(super) bends: [(Noise, f64); 3],
}

impl Course {
    /// How far off it is at a place along the coast.
    pub(super) fn at(&self, along: f64) -> f64 {
        let bend = |(noise, aside): &(Noise, f64)| aside * noise.at((along, 0.4 * along + 7_000.0));
        self.off + self.slant * (along - self.middle) + self.bends.iter().map(bend).sum::<f64>()
    }
}

/// How the ground rises from a shore and falls off it. Heights in metres, distances in metres within
/// which half of them is reached.
#[derive(Debug, Clone, Copy)]
pub(super) struct Profile {
    pub(super) height: f64,
    pub(super) inland: f64,
    pub(super) depth: f64,
    pub(super) offshore: f64,
}

impl Profile {
    /// The height so far inland; off the shore for less than nothing.
    fn at(&self, inland: f64) -> f64 {
        if inland > 0.0 {
            self.height * (1.0 - 1.0 / (1.0 + inland / self.inland))
        } else {
            -self.depth * (1.0 - 1.0 / (1.0 - inland / self.offshore))
        }
    }
}

/// Sand or mud: its height above high water, and how far its own roughness lifts it.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Soft {
    pub(super) height: f64,
    pub(super) rough: f64,
}

impl Soft {
    /// Where there is none.
    pub(super) const NONE: Soft = Soft { height: -400.0, rough: 0.0 };
}

/// A chain of dunes before a coast.
#[derive(Debug, Clone)]
pub(super) struct Barrier {
    /// The dunes' middle line.
    pub(super) line: Course,
    /// Half the width of the dunes: the least, and how much more by the noise.
    pub(super) half: (f64, f64),
    pub(super) widths: Noise,
    /// The middles of the banks before its inlets, along and off, and how far each reaches.
    pub(super) deltas: Vec<Xy>,
    pub(super) delta: f64,
    /// Mean range of springs.
    pub(super) range: f64,
}

impl Barrier {
    /// The sand at a place between the mainland's shore and the open sea.
    fn soft(&self, along: f64, off: f64, shore: f64) -> Soft {
        let middle = self.line.at(along);
        let half = self.half.0 + self.half.1 * (0.5 + self.widths.at((along, 3_000.0))).max(0.0);
        let beside = (off - middle).abs();
        if beside < half {
            let u = beside / half;
            return Soft { height: 8.0 * (1.0 - u * u), rough: 0.0 };
        }
        if off > middle {
            // A beach, then a long even slope.
            let out = beside - half;
            let beach = -0.03 * out.min(300.0);
            let rest = (out - 300.0).max(0.0);
            let slope = beach - 26.0 * (1.0 - 1.0 / (1.0 + rest / 1_500.0));
            let bank = self.bank(along, off);
            let top = -0.75 * self.range - 0.3;
            return Soft {
                height: slope + (top - slope).max(0.0) * bank,
                rough: 0.6 + (0.3 * self.range + 0.5) * bank,
            };
        }
        // Flats along both shores, deeper between.
        let wide = (middle - half - shore).max(1.0);
        let t = ((off - shore) / wide).clamp(0.0, 1.0);
        let bump = 4.0 * t * (1.0 - t);
        let height = -0.36 * self.range - (0.74 * self.range + 1.2) * bump;
        Soft { height, rough: (0.5 * self.range + 0.9) * (0.25 + 0.75 * bump) }
    }

    /// How much of a bank before an inlet this is, 0 to 1.
    fn bank(&self, along: f64, off: f64) -> f64 {
        self.deltas.iter().fold(0.0_f64, |most, delta| {
            let (x, y) = ((along - delta.0) / self.delta, (off - delta.1) / self.delta);
            let rest = (1.0 - x * x - y * y).max(0.0);
            most.max(rest * (2.0 - rest))
        })
    }
}

/// A river mouth that narrows inland.
#[derive(Debug, Clone, Copy)]
pub(super) struct Funnel {
    pub(super) frame: Frame,
    /// Its middle line: `off` is here how far along the coast it lies, by how far inland.
    pub(super) axis: Course,
    /// Half its width at the head and at the mouth.
    pub(super) half: (f64, f64),
    /// How far off the land's side its head and its mouth are.
    pub(super) ends: Xy,
    pub(super) profile: Profile,
    pub(super) range: f64,
}

impl Funnel {
    /// How far up it a place is: 0 at its head, 1 at its mouth.
    fn share(&self, off: f64) -> f64 {
        ((off - self.ends.0) / (self.ends.1 - self.ends.0)).max(0.0)
    }

    /// Half its width so far off the land's side.
    pub(super) fn half_at(&self, off: f64) -> f64 {
        let t = self.share(off);
        self.half.0 + (self.half.1 - self.half.0) * (0.30 * t + 0.70 * t * t * t)
    }

    /// The mainland's height above high water at a place, and that of the sand and mud.
    fn ground(&self, at: Xy) -> (f64, Soft) {
        let (along, off) = self.frame.of(at);
        let (from_axis, half) = ((along - self.axis.at(off)).abs(), self.half_at(off));
        let inland = (from_axis - half).max(self.ends.0 - off);
        (self.profile.at(inland), self.soft(off, from_axis / half))
    }

    /// The sand and mud so far off the land's side, and so far across: 1 at its sides.
    fn soft(&self, off: f64, across: f64) -> Soft {
        let t = self.share(off);
        if across > 1.0 {
            return Soft { height: -0.05 * self.range - 12.0 * (across - 1.0), rough: 0.0 };
        }
        let middle = -0.9 * self.range - 0.4 - 3.5 * t.min(1.0) - 38.0 * (t - 1.0).max(0.0);
        let edge = -0.10 * self.range - 30.0 * (t - 1.1).max(0.0);
        let bowl = 1.0 - across * across;
        let rough = (0.75 * self.range + 1.4) * bowl.min(0.5) * 2.0 * t.min(0.4) / 0.4;
        Soft { height: edge + (middle - edge) * bowl, rough }
    }
}

/// What body a coast has.
#[derive(Debug, Clone)]
pub(super) enum Body {
    /// None: islands alone.
    Isles,
    /// A mainland, with a chain of dunes before it or without.
    Coast { frame: Frame, line: Course, profile: Profile, barrier: Option<Barrier> },
    /// A mainland with a river mouth.
    Funnel(Funnel),
}

impl Body {
    /// The height of the mainland's ground above high water at a place, where there is one, and that of
    /// the sand and mud.
    pub(super) fn ground(&self, at: Xy) -> (Option<f64>, Soft) {
        match self {
            Body::Isles => (None, Soft::NONE),
            Body::Coast { frame, line, profile, barrier } => {
                let (along, off) = frame.of(at);
                let shore = line.at(along);
                let soft = barrier.as_ref().map(|barrier| barrier.soft(along, off, shore));
                (Some(profile.at(shore - off)), soft.unwrap_or(Soft::NONE))
            }
            Body::Funnel(funnel) => {
                let (rise, soft) = funnel.ground(at);
                (Some(rise), soft)
            }
        }
    }

    /// How far a place is from the chart's edges that are open sea.
    pub(super) fn to_sea_edge(&self, at: Xy, size: Xy) -> f64 {
        match self {
            Body::Isles => at.0.min(at.1).min(size.0 - at.0).min(size.1 - at.1),
            Body::Coast { frame, .. } => frame.depth() - frame.of(at).1,
            Body::Funnel(funnel) => funnel.frame.depth() - funnel.frame.of(at).1,
        }
    }

    /// A place in the open sea on the chart's edge.
    pub(super) fn open_sea(&self) -> Xy {
        match self {
            Body::Isles => (0.0, 0.0),
            Body::Coast { frame, .. } => frame.place(frame.length() / 2.0, frame.depth()),
            Body::Funnel(Funnel { frame, .. }) => frame.place(frame.length() / 2.0, frame.depth()),
        }
    }

    /// Whether land leads off the chart.
    pub(super) fn leads_off(&self) -> bool {
        !matches!(self, Body::Isles)
    }
}
