//! The walk through a chart that knows where it is, so that a fault can be found in the file.

use std::ops::ControlFlow;

use super::{Fault, Finding, MOST_METRES, Meeting, meetings};
use crate::format::Step::{self, Element, Field};
use crate::model::{Extent, Point, Ring};

/// Where the walk is and what it has found.
pub(super) struct Walk {
    way: Vec<Step>,
    extent: Extent,
    /// What has been found so far.
    pub(super) findings: Vec<Finding>,
}

impl Walk {
    pub(super) fn new(extent: Extent) -> Walk {
        Walk { way: Vec::new(), extent, findings: Vec::new() }
    }

    /// Notes a fault here.
    pub(super) fn fault(&mut self, fault: Fault) {
        let way = self.way.clone();
        self.findings.push(Finding { way, fault });
    }

    /// Goes one step, does something there and comes back.
    pub(super) fn step<R>(&mut self, step: Step, there: impl FnOnce(&mut Self) -> R) -> R {
        self.way.push(step);
        let result = there(self);
        self.way.pop();
        result
    }

    /// Goes a way, does something at its end and comes back.
    pub(super) fn along<R>(&mut self, way: &[Step], there: impl FnOnce(&mut Self) -> R) -> R {
        self.way.extend_from_slice(way);
        let result = there(self);
        self.way.truncate(self.way.len() - way.len());
        result
    }

    /// Goes into a field.
    pub(super) fn field<R>(&mut self, name: &'static str, there: impl FnOnce(&mut Self) -> R) -> R {
        self.step(Field(name), there)
    }

    /// Goes into each element of a list.
    pub(super) fn each<T>(&mut self, items: &[T], mut one: impl FnMut(&mut Self, &T)) {
        for (index, item) in items.iter().enumerate() {
            self.step(Element(index), |walk| one(walk, item));
        }
    }

    /// Holds that something here is called something.
    pub(super) fn named(&mut self, what: &'static str, name: &str) {
        if name.is_empty() {
            self.fault(Fault::NoName { what });
        }
    }

    /// Holds that the field `name` is not empty.
    pub(super) fn name(&mut self, what: &'static str, name: &str) {
        self.field("name", |walk| walk.named(what, name));
    }

    /// Notes that the field `name` repeats another's.
    pub(super) fn same_name(&mut self, what: &'static str, name: &str) {
        let name = name.to_owned();
        self.field("name", |walk| walk.fault(Fault::SameName { what, name }));
    }

    /// Holds that the field `at` is a place on the chart.
    pub(super) fn at(&mut self, what: &'static str, at: Point) {
        self.field("at", |walk| walk.on_chart(what, at));
    }

    /// Holds that a point is a place on the chart.
    pub(super) fn on_chart(&mut self, what: &'static str, at: Point) {
        let (low, high) = (self.extent.min(), self.extent.max());
        let inside = (low.x..=high.x).contains(&at.x) && (low.y..=high.y).contains(&at.y);
        if self.place(at) && !inside {
            self.fault(Fault::OutsideExtent { what, at });
        }
    }

    /// Holds that a number in the field `name` is within a range.
    pub(super) fn number(
        &mut self,
        name: &'static str,
        what: &'static str,
        value: f64,
        range: (f64, f64),
        unit: &'static str,
    ) {
        self.field(name, |walk| walk.within(what, value, range, unit));
    }

    /// Holds that a number is within a range.
    pub(super) fn within(
        &mut self,
        what: &'static str,
        value: f64,
        (least, most): (f64, f64),
        unit: &'static str,
    ) {
        if !(least..=most).contains(&value) {
            self.fault(Fault::Number { what, value, least, most, unit });
        }
    }

    /// Holds that a point is a place on the Earth, and says whether it is.
    pub(super) fn place(&mut self, at: Point) -> bool {
        let range = -MOST_METRES..=MOST_METRES;
        let is_place = range.contains(&at.x) && range.contains(&at.y);
        if !is_place {
            self.fault(Fault::NotAPlace { at });
        }
        is_place
    }

    /// Holds that a ring is simple.
    pub(super) fn ring(&mut self, ring: &Ring) {
        let points = &ring.0;
        let before = self.findings.len();
        if points.len() < 3 {
            self.fault(Fault::ShortRing { points: points.len() });
        }
        self.distinct(points);
        if points.len() > 1 && points.first() == points.last() {
            self.step(Element(points.len() - 1), |walk| walk.fault(Fault::ClosedTwice));
        }
        // What follows needs real numbers and real sides.
        if self.findings.len() > before {
            return;
        }
        let mut found = None;
        meetings(points, &mut |meeting| {
            found = Some(meeting);
            ControlFlow::Break(())
        });
        if let Some(Meeting { at, first, second, crosses }) = found {
            let fault = Fault::MeetsItself { at, first: first + 1, second: second + 1, crosses };
            self.step(Element(first), |walk| walk.fault(fault));
        }
    }

    /// Holds that an open line leads somewhere.
    pub(super) fn line(&mut self, points: &[Point]) {
        if points.len() < 2 {
            self.fault(Fault::ShortLine { points: points.len() });
        }
        self.distinct(points);
    }

    /// Holds that every point is a place and none repeats the one before.
    fn distinct(&mut self, points: &[Point]) {
        let mut before = None;
        for (index, &at) in points.iter().enumerate() {
            self.step(Element(index), |walk| {
                if walk.place(at) && before == Some(at) {
                    walk.fault(Fault::Repeated { at });
                }
            });
            before = Some(at);
        }
    }
}
