//! The legs between the places where a kayak calls.

use nav::rhumb;

use crate::Unit;
use crate::ground::{Ground, Spot};
use crate::words::whole;

/// From each place where a kayak calls the others that a leg may lead to, by their numbers.
#[derive(Debug, Clone)]
pub(crate) struct Hops {
    /// Over open water.
    pub(super) open: Vec<Vec<usize>>,
    /// Straight, whatever lies between: where a chart has too little open water.
    pub(super) any: Vec<Vec<usize>>,
    /// Those over open water, with how far it is.
    pub(super) legs: Vec<Hop>,
}

/// A leg over open water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Hop {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) miles: f64,
    tenths_of_mile: i64,
    tenths_of_kilometre: i64,
}

impl Hop {
    /// How far it is, in tenths of a unit.
    pub(super) fn tenths(&self, unit: Unit) -> i64 {
        match unit {
            Unit::Miles => self.tenths_of_mile,
            _ => self.tenths_of_kilometre,
        }
    }
}

impl Hops {
    /// The legs of some kilometres on a ground.
    pub(crate) fn of(ground: &Ground<'_>) -> Hops {
        let spots = ground.calls();
        let near = |from: &Spot| {
            let fits = |to: &Spot| {
                let way = to.at - from.at;
                (1500.0 * 1500.0..9000.0 * 9000.0).contains(&(way.x * way.x + way.y * way.y))
            };
            let near = spots.iter().enumerate().filter(|(_, to)| fits(to));
            near.map(|(index, _)| index).collect::<Vec<_>>()
        };
        let any: Vec<Vec<usize>> = spots.iter().map(near).collect();
        let open = |(from, all): (&Spot, &Vec<usize>)| {
            let clear = |to: &usize| ground.clear(from.at, spots[*to].at);
            all.iter().copied().filter(clear).collect()
        };
        let open: Vec<Vec<usize>> = spots.iter().zip(&any).map(open).collect();
        let all = open.iter().enumerate();
        let all = all.flat_map(|(from, to)| to.iter().map(move |to| (from, *to)));
        let legs = all.filter_map(|(from, to)| hop(spots, from, to)).collect();
        Hops { open, any, legs }
    }
}

/// A leg, unless how far it is cannot be rounded.
fn hop(spots: &[Spot], from: usize, to: usize) -> Option<Hop> {
    let way = rhumb::inverse(spots.get(from)?.position, spots.get(to)?.position).distance;
    let (miles, kilometres) = (way.as_nautical_miles(), way.as_kilometres());
    Some(Hop {
        from,
        to,
        miles,
        tenths_of_mile: whole(miles, 0.1)?,
        tenths_of_kilometre: whole(kilometres, 0.1)?,
    })
}
