//! Reasons in plain words.

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Height;
use nav::{Speed, text};

use super::Reason;
use crate::depart::Dark;

impl Reason {
    /// The reason in words, with its figures and clock times: `meets Quelild Tumble at its worst, 11:20
    /// to 11:45`.
    pub fn words(&self, zone: &TimeZone) -> String {
        let clock = |at: Timestamp| text::clock(&at.to_zoned_datetime(zone.clone()));
        let gist = self.gist(Figures::Own);
        match self {
            Reason::NoWay { at, .. }
            | Reason::CannotHold { at, .. }
            | Reason::NoHeading { at, .. }
            | Reason::Shut { at, .. } => format!("{gist}, {}", clock(*at)),
            Reason::Race { from, to, .. } => format!("{gist}, {} to {}", clock(*from), clock(*to)),
            _ => gist,
        }
    }

    /// The same without clock times, for many starts of which this one is the worst: `makes no way on
    /// leg 3 against up to 3.4 kn`.
    pub fn at_worst(&self) -> String {
        self.gist(Figures::Worst)
    }

    fn gist(&self, figures: Figures) -> String {
        let up_to = figures.up_to();
        let long = |time: &SignedDuration| format!("{up_to}{}", text::duration(*time));
        match self {
            Reason::NoWay { leg, drift, .. } => {
                format!("makes no way on leg {} against {}", leg + 1, figures.rate(*drift))
            }
            Reason::CannotHold { leg, drift, .. } => {
                format!("cannot hold the line of leg {} across {}", leg + 1, figures.rate(*drift))
            }
            Reason::NoHeading { leg, why, .. } => format!("leg {}: {why}", leg + 1),
            Reason::LeavesInTheDark(dark) => figures.in_the_dark("leaves", *dark),
            Reason::LandsInTheDark(dark) => figures.in_the_dark("lands", *dark),
            Reason::LittleLight { left, least } => {
                let (left, least) = (text::duration(*left), text::duration(*least));
                let down_to = figures.down_to();
                format!("lands {down_to}{left} before the end of civil twilight, {least} wanted")
            }
            Reason::Endless { after } => format!("has not landed after {}", text::duration(*after)),
            Reason::Race { name, state, .. } => format!("meets {name} {state}"),
            Reason::Shut { gate, wait: Some(wait), .. } => {
                format!("{gate} shut, would wait {}", long(wait))
            }
            Reason::Shut { gate, wait: None, .. } => format!("{gate} shut"),
            Reason::Drift { leg, rate } => {
                format!("water of {up_to}{} on leg {}", knots(*rate), leg + 1)
            }
            Reason::LowWater { height, least } => {
                let (down_to, height, least) = (figures.down_to(), metres(*height), metres(*least));
                format!("tide of {down_to}{height} at the landing, {least} wanted")
            }
            Reason::LongDay { time } => format!("a day of {}", long(time)),
            Reason::HeldUp { gate: Some(gate), wait } => format!("waits {} for {gate}", long(wait)),
            Reason::HeldUp { gate: None, wait } => format!("waits {} for the stream", long(wait)),
            Reason::Slow { longer } => format!("{} longer than the best", long(longer)),
        }
    }
}

/// Whose figures are written.
#[derive(Debug, Clone, Copy)]
enum Figures {
    /// A start's own.
    Own,
    /// The worst of many.
    Worst,
}

impl Figures {
    const fn up_to(self) -> &'static str {
        match self {
            Figures::Own => "",
            Figures::Worst => "up to ",
        }
    }

    const fn down_to(self) -> &'static str {
        match self {
            Figures::Own => "",
            Figures::Worst => "down to ",
        }
    }

    /// The water, or what is left of what there is: the wind.
    fn rate(self, drift: Option<Speed>) -> String {
        drift.map_or_else(
            || "the wind".to_owned(),
            |rate| format!("{}{}", self.up_to(), knots(rate)),
        )
    }

    fn in_the_dark(self, does: &str, dark: Dark) -> String {
        let (time, what) = match dark {
            Dark::After(time) => (time, "after the end of civil twilight"),
            Dark::Before(time) => (time, "before civil twilight begins"),
            Dark::AllDay => return format!("{does} in the dark of the season"),
        };
        format!("{does} {}{} {what}", self.up_to(), text::duration(time))
    }
}

fn knots(rate: Speed) -> String {
    format!("{:.1} kn", rate.as_knots())
}

fn metres(height: Height) -> String {
    // Adding nothing takes the sign off a zero.
    format!("{:.1} m", (height.as_metres() * 10.0).round() / 10.0 + 0.0)
}
