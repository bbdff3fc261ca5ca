//! The words for the kinds of things on a chart.

use std::fmt::{Display, Formatter, Result};

use crate::model::{Ground, HazardKind, MarkKind, PlaceKind, Serves};

/// Writes each of an enum's values as its word.
macro_rules! words {
    ($kind:ident { $($value:ident => $word:literal),* $(,)? }) => {
        impl Display for $kind {
            fn fmt(&self, f: &mut Formatter<'_>) -> Result {
                f.write_str(match self { $($kind::$value => $word),* })
            }
        }

        impl $kind {
            /// All of them, in their order.
            pub const ALL: &'static [$kind] = &[$($kind::$value),*];
        }
    };
}

words!(Ground {
    Sand => "sand",
    Shingle => "shingle",
    Boulders => "boulders",
    Rock => "rock",
    Mud => "mud",
    Slip => "slip",
});

words!(Serves {
    AnyTide => "any tide",
    AboveHalfTide => "above half tide",
    BelowHalfTide => "below half tide",
    NearHighWater => "near high water",
    NearLowWater => "near low water",
});

words!(HazardKind {
    DryingRock => "drying rock",
    SunkenRock => "sunken rock",
    BreakingBank => "breaking bank",
    Wreck => "wreck",
    FixedGear => "fixed gear",
    Fairway => "fairway",
});

words!(PlaceKind {
    Settlement => "settlement",
    Island => "island",
    Water => "water",
    Headland => "headland",
    Inlet => "inlet",
    Narrows => "narrows",
    Skerry => "skerry",
    Hill => "hill",
});

words!(MarkKind {
    Light => "light",
    Beacon => "beacon",
    Buoy => "buoy",
    Cairn => "cairn",
    Tower => "tower",
});
