//! The signs of a chart on paper: simple shapes of our own, told apart in black.

use chart::model::{HazardKind, MarkKind, Serves};

use super::look::Inks;
use crate::draw::{Area, Ink, Item, Mm, Outline, Size, Spot, Step, Stroke};

/// Half the width of a sign.
pub(super) const REACH: Mm = Mm(1.3);

const LINE: Stroke = Stroke::black(0.2);
const EDGE: Stroke = Stroke::black(0.25);

/// A shape by its corners, in millimetres right of and below its middle.
fn shape(at: Spot, corners: &[(f64, f64)]) -> Outline {
    Outline::ring(corners.iter().map(|(x, y)| at.moved(Mm(*x), Mm(*y))))
}

/// Lines by their ends.
fn lines(at: Spot, ends: &[[(f64, f64); 2]]) -> Outline {
    let mut outline = Outline::default();
    for line in ends {
        outline.add(line.map(|(x, y)| at.moved(Mm(x), Mm(y))), false);
    }
    outline
}

/// A place to land: the bow of a boat, seen from above; filled where it serves at any tide.
pub(super) fn landing(at: Spot, serves: Serves) -> Vec<Item> {
    let point = |x: f64, y: f64| at.moved(Mm(x), Mm(y));
    let steps = vec![
        Step::Move(point(0.0, -1.4)),
        Step::Curve(point(1.2, -0.5), point(1.1, 0.6), point(0.8, 1.2)),
        Step::Line(point(-0.8, 1.2)),
        Step::Curve(point(-1.1, 0.6), point(-1.2, -0.5), point(0.0, -1.4)),
        Step::Close,
    ];
    let ink = if serves == Serves::AnyTide { Ink::BLACK } else { Ink::WHITE };
    vec![Item::both(Outline { steps }, ink, EDGE)]
}

/// Something to keep clear of.
pub(super) fn hazard(at: Spot, kind: HazardKind) -> Vec<Item> {
    let bar = |x: f64, y: f64| [(-x, -y), (x, y)];
    match kind {
        HazardKind::DryingRock => {
            let ends = [bar(1.1, 0.0), bar(0.55, 0.95), bar(0.55, -0.95)];
            vec![Item::stroke(lines(at, &ends), LINE)]
        }
        HazardKind::SunkenRock => {
            vec![Item::stroke(lines(at, &[bar(1.1, 0.0), bar(0.0, 1.1)]), LINE)]
        }
        HazardKind::BreakingBank => {
            let crest = [(-1.3, 0.5), (-0.65, -0.5), (0.0, 0.5), (0.65, -0.5), (1.3, 0.5)];
            let crest = Outline::line(crest.map(|(x, y)| at.moved(Mm(x), Mm(y))));
            vec![Item::stroke(crest, EDGE)]
        }
        HazardKind::Wreck => {
            let ends = [
                bar(1.3, 0.0),
                [(-0.7, -0.5), (-0.7, 0.5)],
                [(0.0, -0.9), (0.0, 0.9)],
                [(0.7, -0.5), (0.7, 0.5)],
            ];
            vec![Item::stroke(lines(at, &ends), LINE)]
        }
        HazardKind::FixedGear => {
            let box_ = shape(at, &[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)]);
            let mut items = vec![Item::both(box_, Ink::WHITE, LINE)];
            items.push(Item::stroke(lines(at, &[bar(0.9, 0.9), bar(0.9, -0.9)]), LINE));
            items
        }
        HazardKind::Fairway => {
            let ends = [
                bar(0.0, 1.3),
                [(0.0, -1.3), (-0.5, -0.6)],
                [(0.0, -1.3), (0.5, -0.6)],
                [(0.0, 1.3), (-0.5, 0.6)],
                [(0.0, 1.3), (0.5, 0.6)],
            ];
            vec![Item::stroke(lines(at, &ends), EDGE)]
        }
    }
}

/// A mark to take a bearing of; a dot shows the very place.
pub(super) fn mark(at: Spot, kind: MarkKind) -> Vec<Item> {
    match kind {
        MarkKind::Light => {
            let ray = |n: u32| {
                at.towards(f64::from(n) * 36.0, Mm(if n.is_multiple_of(2) { 1.5 } else { 0.6 }))
            };
            vec![Item::both(Outline::ring((0..10).map(ray)), Ink::WHITE, LINE), dot(at, 0.25)]
        }
        MarkKind::Beacon => {
            let head = shape(at, &[(0.0, -1.5), (0.8, -0.2), (-0.8, -0.2)]);
            vec![Item::both(head, Ink::BLACK, LINE), Item::stroke(stem(at), LINE), dot(at, 0.3)]
        }
        MarkKind::Buoy => {
            let float = shape(at, &[(0.0, -1.5), (0.7, -0.7), (0.0, 0.0), (-0.7, -0.7)]);
            let sea = lines(at, &[[(-1.0, 0.0), (1.0, 0.0)]]);
            vec![Item::both(float, Ink::WHITE, LINE), Item::stroke(sea, LINE)]
        }
        MarkKind::Cairn => {
            let pile = shape(at, &[(-0.9, 0.0), (-0.35, -1.3), (0.35, -1.3), (0.9, 0.0)]);
            vec![Item::both(pile, Ink::WHITE, LINE), dot(at, 0.3)]
        }
        MarkKind::Tower => {
            let wall = Area::at(at.moved(Mm(-0.5), Mm(-1.6)), Size::new(1.0, 1.6));
            vec![Item::both(Outline::rectangle(wall), Ink::BLACK, LINE), dot(at, 0.35)]
        }
    }
}

fn stem(at: Spot) -> Outline {
    lines(at, &[[(0.0, -0.2), (0.0, 0.0)]])
}

fn dot(at: Spot, radius: f64) -> Item {
    Item::fill(Outline::circle(at, Mm(radius)), Ink::BLACK)
}

/// Where the stream is known: a ring on the line along which it runs.
pub(super) fn stream(at: Spot, turn: Option<f64>) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(turn) = turn {
        for way in [turn, turn + 180.0] {
            let tip = at.towards(way, Mm(2.6));
            let barbs = [tip.towards(way + 155.0, Mm(1.0)), tip, tip.towards(way - 155.0, Mm(1.0))];
            let mut arrow = Outline::line([at, tip]);
            arrow.add(barbs, false);
            items.push(Item::stroke(arrow, LINE));
        }
    }
    items.push(Item::both(Outline::circle(at, Mm(0.6)), Ink::WHITE, LINE));
    items
}

/// Waves across a race, to be clipped to it.
pub(super) fn waves(area: Area, inks: Inks) -> Vec<Item> {
    const STEP: f64 = 2.4;
    const ROW: f64 = 1.6;
    let mut outline = Outline::default();
    let rows = (area.top.0 / ROW).floor() as i32..=(area.bottom().0 / ROW).ceil() as i32;
    for row in rows {
        let y = f64::from(row) * ROW;
        let shift = if row % 2 == 0 { 0.0 } else { STEP / 2.0 };
        let mut x = (area.left.0 / STEP).floor() * STEP - STEP + shift;
        while x < area.right().0 {
            let at = |dx: f64, dy: f64| Spot::new(x + dx, y + dy);
            outline.steps.push(Step::Move(at(0.0, 0.0)));
            outline.steps.push(Step::Curve(at(0.4, -0.7), at(0.8, -0.7), at(1.2, 0.0)));
            x += STEP;
        }
    }
    vec![Item::stroke(outline, inks.race())]
}
