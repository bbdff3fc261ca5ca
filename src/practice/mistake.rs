//! The mistakes that are usual, by name, with what helps against each.

use std::fmt;

use crate::{Answer, Shown};

/// A mistake that an answer can come from, with what it comes to in one question.
#[derive(Debug, Clone, PartialEq)]
pub struct Mistake {
    /// Which mistake.
    pub kind: MistakeKind,
    /// The answer that it leads to.
    pub answer: Answer,
    /// The way that it goes, drawn on the chart, where that is more than the answer drawn.
    pub drawn: Vec<Shown>,
}

macro_rules! mistakes {
    ($($(#[$doc:meta])* $kind:ident $key:literal $name:literal $advice:literal,)*) => {
        /// A mistake that is usual.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum MistakeKind { $($(#[$doc])* $kind,)* }

        impl MistakeKind {
            /// All of them.
            pub const ALL: &'static [MistakeKind] = &[$(MistakeKind::$kind),*];

            /// Its name in files and tables: `easting-northing-swapped`.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $(MistakeKind::$kind => $key),* }
            }

            /// Its name in a sentence: `easting and northing swapped`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(MistakeKind::$kind => $name),* }
            }

            /// What helps against it, in a sentence.
            #[must_use]
            pub const fn advice(self) -> &'static str {
                match self { $(MistakeKind::$kind => $advice),* }
            }
        }
    };
}

mistakes! {
    /// The northing came first.
    EastingNorthingSwapped "easting-northing-swapped" "easting and northing swapped"
        "Along first, then up: the easting comes before the northing.",
    /// The figures were rounded.
    RoundedNotCounted "rounded" "rounded instead of counted"
        "A reference names the square that the point lies in: count the tenths that are full, and never round up.",
    /// The square was named by its other corner.
    NorthEastCorner "north-east-corner" "north-east corner in place of south-west"
        "Read the lines to the west and to the south of the point: they meet in the square's south-west corner.",
    /// A tenth too many or too few.
    TenthsOffByOne "tenths" "tenths off by one"
        "The point lies between two tenths: count from the grid line again, and take the lower one.",
    /// The figures of the square beside.
    NextSquare "next-square" "the next square's figures"
        "The principal figures are those of the line before the point, not of the line after it or of the one before that.",
    /// The letters of the square beside.
    NeighbourLetters "neighbour-letters" "the letters of a neighbouring square"
        "Find the square by both its edges, west and south, before you read its letters.",
    /// Column read for row.
    RowForColumn "row-for-column" "row and column of the letters swapped"
        "The easting picks the column, counted from the west; the northing the row, counted from the south.",
    /// Fewer figures than asked for.
    FiguresTooFew "figures-too-few" "too few figures"
        "It is the right square, but a coarser one: six figures are three along and three up.",
    /// More figures than asked for.
    FiguresTooMany "figures-too-many" "too many figures"
        "It is the right square, but a finer one than was asked for: leave the last figure of each half out.",
    /// Longitude in place of latitude.
    LatLonSwapped "latlon-swapped" "latitude and longitude swapped"
        "Latitude is read on the side of the chart and comes first; longitude is read along the top or the foot.",
    /// Minutes written as a decimal fraction, or the other way.
    MinutesForDecimals "minutes-for-decimals" "minutes taken for decimals of a degree"
        "A degree has sixty minutes: half a degree is 30′, and 30′ is 0.5°.",
    /// East for west, or north for south.
    WrongHemisphere "wrong-hemisphere" "the wrong letter, east for west or north for south"
        "Look which way the figures in the margin grow: that way is the letter.",
    /// A whole minute of the margin too many or too few.
    MinuteOffByOne "minute" "a whole minute off"
        "Count the minutes in the margin from the last one that is numbered.",
    /// The other direction of the line.
    BackForBearing "back-for-bearing" "the back bearing for the bearing"
        "Lay the protractor's arrow from where you are to where you go, and ask which quarter that is before you read it.",
    /// The bearing for the back bearing.
    BearingForBack "bearing-for-back" "the bearing itself for the back bearing"
        "The way back is half a turn away: 180 more, or 180 less where that is over 360.",
    /// Read on the scale that runs against the sun.
    CountedAnticlockwise "anticlockwise" "counted against the sun"
        "Bearings grow clockwise, from north over east.",
    /// Counted from east, as in school.
    MeasuredFromEast "from-east" "measured from east"
        "A bearing begins at north: turn the protractor until its zero lies on a grid line that runs north.",
    /// A right angle off.
    QuarterTurn "quarter-turn" "a quarter of a turn off"
        "Half a turn is 180, not 90 or 270.",
    /// Variation put on for taken off.
    VariationWrongWay "variation-wrong-way" "variation the wrong way"
        "From chart to compass west is added and east is taken off; from compass to chart it is the other way round.",
    /// Convergence put on for taken off.
    ConvergenceWrongWay "convergence-wrong-way" "convergence the wrong way"
        "Where grid north lies east of true north the grid bearing is the smaller one, and where it lies west the larger.",
    /// Convergence left out, or the grid bearing given.
    GridForTrue "grid-for-true" "grid for true"
        "The protractor lies on grid lines; the variation counts from true north: between them is the convergence.",
    /// The true bearing given for the grid's.
    TrueForGrid "true-for-grid" "true for grid"
        "One step is missing: from true north to the grid's lines, by the convergence.",
    /// Variation left out on the way to the compass.
    TrueForMagnetic "true-for-magnetic" "true for magnetic"
        "The compass points to magnetic north: the variation is still to be put on.",
    /// Variation left out on the way from the compass.
    MagneticForTrue "magnetic-for-true" "magnetic for true"
        "What the compass says is magnetic: the variation must come off before it goes on the chart.",
    /// The grid bearing on the compass.
    GridForMagnetic "grid-for-magnetic" "grid for magnetic"
        "That is the bearing off the chart; the compass wants the angle between grid north and magnetic north as well.",
    /// The compass bearing on the grid.
    MagneticForGrid "magnetic-for-grid" "magnetic for grid"
        "That is the compass's bearing; on the chart's grid the angle between the two norths must come off.",
    /// Kilometres given where miles are asked for.
    KilometresForMiles "kilometres-for-miles" "kilometres for nautical miles"
        "A nautical mile is 1.852 km: in miles the number is the smaller one, little over half.",
    /// Miles given where kilometres are asked for.
    MilesForKilometres "miles-for-kilometres" "nautical miles for kilometres"
        "A nautical mile is 1.852 km: in kilometres the number is the larger one, nearly twice.",
    /// Read on a scale of another map.
    WrongScale "wrong-scale" "measured with the wrong scale"
        "Check the scale against a grid square: each side is a kilometre, whatever the ruler says.",
    /// Squares along and up added.
    SidesAdded "sides-added" "squares along and squares up added"
        "That is the way round the corner; straight across it is shorter: the root of the sum of the squares.",
    /// Only the longer side counted.
    LongerSideOnly "longer-side" "only the longer side counted"
        "A square crossed from corner to corner is 1.4 km, not one.",
    /// Straight across in place of along the shore.
    StraightForShore "straight-for-shore" "straight across in place of along the shore"
        "Walk the dividers round every bay that is wider than their step.",
    /// The longer way round an island.
    OtherWayRound "other-way-round" "the other way round"
        "Measure both ways round before you say which is the shorter.",
    /// Tenths of an hour written as minutes.
    MinutesForTenths "minutes-for-tenths" "minutes for tenths of an hour"
        "A tenth of an hour is six minutes: 1.4 hours is 1 h 24.",
    /// Multiplied where it should be divided, or the other way.
    WrongWayRound "multiplied" "multiplied instead of divided, or the other way"
        "Time is distance by speed; distance is speed times time. Ask whether the answer can be that large.",
    /// The hourly rest left out.
    RestsForgotten "rests-forgotten" "the rests left out"
        "With ten minutes' rest in each hour only fifty are paddled.",
    /// Rising for falling.
    EbbForFlood "ebb-for-flood" "ebb for flood"
        "Look which comes first, high or low water: after high water it ebbs, after low water it floods.",
    /// An hour too early or too late in the rule.
    WrongHour "wrong-hour" "the rule read at the wrong hour"
        "Count the hours, or the sixths, from the turn, and take what belongs to the end of the last one.",
    /// Taken off where it is put on.
    HeightBelow "height-below" "height below instead of above"
        "Heights and drying heights stand above chart datum, charted depths below it: add a depth, take off a drying height.",
    /// The rise alone.
    LowWaterForgotten "low-water-forgotten" "the height of low water forgotten"
        "The twelfths are of the range: they stand on top of low water.",
    /// As if the tide rose evenly.
    EvenRise "even-rise" "the range shared out evenly"
        "The tide is slow at first and at the end: 1, 2, 3, 3, 2, 1 twelfths.",
    /// Springs' figure where neaps' counts.
    SpringsForNeaps "springs-for-neaps" "springs for neaps"
        "Compare the day's range with the mean ranges before you choose the rate.",
    /// Neaps' figure where springs' counts.
    NeapsForSprings "neaps-for-springs" "neaps for springs"
        "Compare the day's range with the mean ranges before you choose the rate.",
    /// The greatest rate in place of the hour's.
    GreatestForHour "greatest-for-hour" "the greatest rate in place of the hour's"
        "The greatest rate runs at half time alone: 50, 90, 100, 90, 50 % of it hour by hour.",
    /// The rule of thirds.
    ThirdsForFiftyNinety "thirds" "thirds in place of 50/90"
        "The rule of thirds is its plainer cousin; this one asks for 50, 90 and 100 %.",
    /// The bow turned down the stream.
    StreamAdded "stream-added" "stream added instead of allowed for"
        "The bow points up the stream, to the side that it comes from.",
    /// As if the water stood still.
    StreamLeftOut "stream-left-out" "the stream left out"
        "Draw what the stream does in the time first, and the boat's way from its end.",
    /// The stream laid off against its set.
    StreamReversed "stream-reversed" "the stream taken as coming from its set"
        "A wind is named by where it comes from, a stream by where it goes.",
    /// Speed through the water for that over the ground.
    SpeedForGroundSpeed "speed-for-ground-speed" "speed through the water for speed over the ground"
        "A stream along the way is put on the speed where it helps, and taken off where it does not.",
    /// Each bearing laid from the other mark.
    MarksSwapped "marks-swapped" "the two marks swapped"
        "Write each bearing beside its mark before you draw.",
    /// A whole hour's run.
    WholeHour "whole-hour" "a whole hour's run"
        "The speed is what is made in an hour; in 40 minutes it is two thirds of that.",
    /// One clock taken for another.
    HourByZone "zone" "an hour off by the zone"
        "Put table and watch on one clock before you reckon.",
    /// The stops left out.
    StopForgotten "stop-forgotten" "the stop forgotten"
        "Stops are time, too: put them on the time under way.",
    /// Reckoned on where it should be back.
    ForwardForBack "forward-for-back" "reckoned forwards instead of back"
        "When to leave is before when to be there: take the time off.",
}

impl fmt::Display for MistakeKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_mistake_has_its_own_words() {
        for (index, kind) in MistakeKind::ALL.iter().enumerate() {
            assert!(kind.advice().ends_with('.'), "{kind}");
            assert!(!kind.name().ends_with('.'), "{kind}");
            let later = &MistakeKind::ALL[index + 1..];
            assert!(later.iter().all(|it| it.key() != kind.key() && it.name() != kind.name()));
        }
        assert!(MistakeKind::ALL.len() >= 20);
    }
}
