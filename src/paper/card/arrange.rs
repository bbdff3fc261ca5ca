//! What goes on which side of a card, and how large: the largest type with which all has room on the sides that there
//! should be.

use chart::OffGrid;

use super::content::Content;
use super::setting::{Block, LEAST_CHART, Setting, What};
use super::tables::Look;
use super::{Card, Sides};
use crate::draw::{Area, Mm, Page, Pt};
use crate::map::{Chartlet, LEAST};
use crate::set::flow::{self, Piece, Placed};

/// The sizes of type that are tried.
const SIZES: [Pt; 11] = [
    Pt(13.0),
    Pt(12.0),
    Pt(11.0),
    Pt(10.0),
    Pt(9.5),
    Pt(9.0),
    Pt(8.5),
    Pt(8.0),
    Pt(7.5),
    Pt(7.25),
    LEAST,
];

/// What is tried in turn: how the legs are set, how much of a page the chart is high at least, and the least size of
/// type that goes with it. Large figures are worth more than a large chart.
const TRIALS: [(Look, f64, Pt); 5] = [
    (Look::Large, 0.42, Pt(7.5)),
    (Look::Large, 0.35, LEAST),
    (Look::Close, 0.42, Pt(7.5)),
    (Look::Close, 0.35, LEAST),
    (Look::Close, 0.25, LEAST),
];

/// All on one side.
const ONE: [&[&[Block]]; 1] = [&[&Block::ALL]];

/// Two sides: what is read on the way is on one of them whole, the chart's if it has room there.
const TWO: [&[&[Block]]; 5] = [
    &[
        &[Block::Title, Block::Chart, Block::Legs],
        &[Block::Facts, Block::Tide, Block::WaysOut, Block::Notes],
    ],
    &[
        &[Block::Title, Block::Facts, Block::Chart, Block::Legs],
        &[Block::Tide, Block::WaysOut, Block::Notes],
    ],
    &[
        &[Block::Title, Block::Facts, Block::Chart, Block::Tide],
        &[Block::Legs, Block::WaysOut, Block::Notes],
    ],
    &[
        &[Block::Title, Block::Facts, Block::Chart, Block::WaysOut, Block::Notes],
        &[Block::Legs, Block::Tide],
    ],
    &[
        &[Block::Title, Block::Facts, Block::Chart, Block::Tide, Block::WaysOut, Block::Notes],
        &[Block::Legs],
    ],
];

/// On more sides: the chart's, then the legs and what else there is.
const MORE: [[&[Block]; 2]; 2] = [
    [
        &[Block::Title, Block::Facts, Block::Chart],
        &[Block::Legs, Block::Tide, Block::WaysOut, Block::Notes],
    ],
    [
        &[Block::Title, Block::Facts, Block::Chart, Block::Tide],
        &[Block::Legs, Block::WaysOut, Block::Notes],
    ],
];

/// Pieces on pages.
type Laid = Vec<Vec<Placed<What>>>;

pub(super) fn pages(
    card: &Card,
    content: &Content,
    chartlet: &Chartlet<'_>,
) -> Result<Vec<Page>, OffGrid> {
    let sheet = card.size.sheet();
    let margin = if sheet.width < Mm(110.0) { Mm(4.5) } else { Mm(9.0) };
    let all = Area::of(sheet).inset(margin);
    let chosen = chosen(card, content, all, sheet.height);
    let Some((setting, laid)) = chosen.or_else(|| flowing(content, all)) else {
        return Ok(Vec::new());
    };
    let count = laid.len();
    let mut pages = Vec::with_capacity(count);
    for (index, placed) in laid.into_iter().enumerate() {
        let mut page = Page::new(sheet);
        page.items.extend(setting.margins(index + 1, count));
        for placed in placed {
            page.items.extend(setting.draw(&placed, chartlet)?);
        }
        pages.push(page);
    }
    Ok(pages)
}

/// The first of the [`TRIALS`], the largest type first, with which all has room on the sides that there should be, or
/// on two.
fn chosen<'a>(
    card: &Card,
    content: &'a Content,
    all: Area,
    height: Mm,
) -> Option<(Setting<'a>, Laid)> {
    let one = (card.sides == Sides::One).then_some(&ONE[..]);
    one.into_iter().chain([&TWO[..]]).find_map(|orders| fitting(orders, content, all, height))
}

fn fitting<'a>(
    orders: &[&[&[Block]]],
    content: &'a Content,
    all: Area,
    height: Mm,
) -> Option<(Setting<'a>, Laid)> {
    for (look, part, least) in TRIALS {
        let chart = (height * part).max(LEAST_CHART);
        for size in SIZES.into_iter().filter(|size| *size >= least) {
            let Some(setting) = Setting::new(content, look, size, all) else { continue };
            if let Some(laid) = orders.iter().find_map(|order| lay(&setting, order, chart)) {
                return Some((setting, laid));
            }
        }
    }
    None
}

/// The parts on their sides; nothing where they have no room.
fn lay(setting: &Setting<'_>, order: &[&[Block]], chart: Mm) -> Option<Laid> {
    order.iter().map(|blocks| side(setting, blocks, chart)).collect()
}

/// The parts on one side, a chart among them as high as what is left, but no lower than this.
fn side(setting: &Setting<'_>, blocks: &[Block], chart: Mm) -> Option<Vec<Placed<What>>> {
    let pieces = || blocks.iter().flat_map(|block| setting.pieces(*block));
    let left = setting.area.height - pieces().map(|piece| piece.height).sum::<Mm>();
    let high = left + LEAST_CHART;
    let low = blocks.contains(&Block::Chart) && high < chart;
    if left < Mm::ZERO || low {
        return None;
    }
    flow::pages(&charted(pieces().cloned().collect(), high), setting.area, |_| None)
        .into_iter()
        .next()
}

/// The pieces with the chart so high.
fn charted(mut pieces: Vec<Piece<What>>, high: Mm) -> Vec<Piece<What>> {
    for piece in pieces.iter_mut().filter(|piece| piece.what == What::Chart) {
        piece.height = high;
    }
    pieces
}

/// As few sides as the parts take, one after the other, if it can be with all legs on one of them, and the largest
/// type that takes no more.
fn flowing(content: &Content, all: Area) -> Option<(Setting<'_>, Laid)> {
    let mut best: Option<((usize, bool), (Setting<'_>, Laid))> = None;
    for look in [Look::Large, Look::Close] {
        for size in SIZES.into_iter().filter(|size| *size < Pt(9.0)) {
            let Some(setting) = Setting::new(content, look, size, all) else { continue };
            let laid = flow(&setting);
            let worth = (laid.len(), !setting.is_whole());
            if best.as_ref().is_none_or(|(least, _)| worth < *least) {
                best = Some((worth, (setting, laid)));
            }
        }
    }
    best.map(|(_, chosen)| chosen)
}

fn flow(setting: &Setting<'_>) -> Laid {
    let all = MORE.iter().map(|order| flow_in(setting, order));
    all.min_by_key(Vec::len).unwrap_or_default()
}

fn flow_in(setting: &Setting<'_>, order: &[&[Block]; 2]) -> Laid {
    let again = |piece: &Piece<What>| match piece.what {
        What::Row(which, index) if index > 0 => Some(setting.head(which)),
        _ => None,
    };
    let front = side(setting, order[0], LEAST_CHART);
    let rest = if front.is_some() { &order[1..] } else { &order[..] };
    let rest: Vec<_> =
        rest.iter().copied().flatten().flat_map(|block| setting.pieces(*block)).cloned().collect();
    let rest = flow::pages(&charted(rest, setting.area.height * 0.5), setting.area, again);
    front.into_iter().chain(rest).collect()
}
