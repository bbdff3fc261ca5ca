//! A card set on pages: type and chart as large as they can be with no more sides than it should have.

use chart::{Extent, OffGrid, Point};
use nav::Grid;
use plan::Route;

use super::content::Content;
use super::{Card, curve, tables};
use crate::draw::{Area, Item, Mm, Outline, Page, Pt, Spot, Stroke, Text};
use crate::font::Face;
use crate::map::{Chartlet, LEAST, Part};
use crate::set::flow::{self, Piece, Placed};
use crate::set::{self, Table, leading};

/// The sizes of type that are tried.
const SIZES: [Pt; 8] = [Pt(11.0), Pt(10.0), Pt(9.0), Pt(8.5), Pt(8.0), Pt(7.5), Pt(7.25), LEAST];

/// What is tried in turn: how much of a page the chart is high, and the least size of type that goes with it. Type
/// is legible in the hand at nine points and a route on a chart of half a page; either gives way to the other by turns.
const TRIALS: [(f64, Pt); 8] = [
    (0.56, Pt(9.0)),
    (0.46, Pt(9.0)),
    (0.56, Pt(8.0)),
    (0.46, Pt(8.0)),
    (0.38, Pt(8.0)),
    (0.46, LEAST),
    (0.38, LEAST),
    (0.3, LEAST),
];
/// The least height of a chart in which a route can be followed.
const LEAST_CHART: Mm = Mm(54.0);

/// Something on a card.
#[derive(Debug, Clone, PartialEq)]
enum What {
    /// A line of text.
    Line(String, Face, Pt),
    /// A heading over what follows.
    Heading(String),
    /// The head of a table: of the legs, or of the ways out.
    Head(Which),
    /// A row of one.
    Row(Which, usize),
    /// The chart.
    Chart,
    /// The tide.
    Tide,
    /// Nothing.
    Gap,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Which {
    Legs,
    WaysOut,
}

/// A card in one size of type.
struct Setting<'a> {
    content: &'a Content,
    size: Pt,
    area: Area,
    /// The cautions in lines, at the foot of every page.
    foot: Vec<String>,
    legs: Table,
    ways_out: Option<Table>,
    /// All pieces in order; the chart's height is settled as they are laid.
    pieces: Vec<Piece<What>>,
}

pub(super) fn pages(
    card: &Card,
    content: &Content,
    chartlet: &Chartlet<'_>,
) -> Result<Vec<Page>, OffGrid> {
    let sheet = card.size.sheet();
    let margin = if sheet.width < Mm(110.0) { Mm(4.5) } else { Mm(9.0) };
    let all = Area::of(sheet).inset(margin);
    let Some((setting, laid)) = chosen(card, content, all, sheet.height) else {
        return Ok(Vec::new());
    };
    let count = laid.len();
    let mut pages = Vec::with_capacity(count);
    for (index, placed) in laid.into_iter().enumerate() {
        let mut page = Page::new(sheet);
        for placed in placed {
            page.items.extend(setting.draw(&placed, chartlet)?);
        }
        page.items.extend(setting.footer(all, index + 1, count));
        pages.push(page);
    }
    Ok(pages)
}

/// The first of the [`TRIALS`], the largest type first, that has no more pages than it should. Where none has, the
/// least type with a large chart, on more pages.
fn chosen<'a>(
    card: &Card,
    content: &'a Content,
    all: Area,
    height: Mm,
) -> Option<(Setting<'a>, Laid)> {
    let mut settings: Vec<Setting<'a>> =
        SIZES.iter().filter_map(|size| Setting::new(content, *size, all)).collect();
    let chart = |part: f64| (height * part).max(LEAST_CHART);
    for (part, least) in TRIALS {
        for index in 0..settings.len() {
            if settings[index].size < least {
                continue;
            }
            let laid = settings[index].lay(chart(part));
            if laid.len() <= card.sides.count() {
                return Some((settings.swap_remove(index), laid));
            }
        }
    }
    let last = settings.pop()?;
    let laid = last.lay(chart(TRIALS[0].0));
    Some((last, laid))
}

/// Pieces on pages.
type Laid = Vec<Vec<Placed<What>>>;

impl<'a> Setting<'a> {
    /// Nothing where the tables have no room in this size.
    fn new(content: &'a Content, size: Pt, all: Area) -> Option<Setting<'a>> {
        let foot = set::lines(Face::Regular, &content.cautions.join(" "), LEAST, all.width);
        // One line more for the number of the page.
        let foot_height = leading(LEAST) * (foot.len() + 1) as f64 + Mm(1.5);
        let area = all.between(all.top, all.bottom() - foot_height);
        let legs = tables::legs(content, size, area.width)?;
        let ways_out = tables::ways_out(content, size, area.width);
        if ways_out.is_none() && !content.ways_out.is_empty() {
            return None;
        }
        let pieces = Vec::new();
        let mut setting = Setting { content, size, area, foot, legs, ways_out, pieces };
        setting.pieces = setting.all_pieces();
        Some(setting)
    }

    fn lay(&self, chart: Mm) -> Laid {
        let height = |piece: &Piece<What>| match piece.what {
            What::Chart => whole(What::Chart, chart),
            _ => piece.clone(),
        };
        let pieces: Vec<Piece<What>> = self.pieces.iter().map(height).collect();
        flow::pages(&pieces, self.area, |piece| match piece.what {
            What::Row(which, index) if index > 0 => Some(self.head(which)),
            _ => None,
        })
    }

    fn head(&self, which: Which) -> Piece<What> {
        let (height, first) = match which {
            Which::Legs => (self.legs.head_height(), self.legs.row_height(0)),
            Which::WaysOut => {
                let table = self.ways_out.as_ref();
                let height = table.map_or(Mm::ZERO, Table::head_height);
                (height, table.map_or(Mm::ZERO, |table| table.row_height(0)))
            }
        };
        Piece { what: What::Head(which), height, keep: first }
    }

    fn all_pieces(&self) -> Vec<Piece<What>> {
        let mut pieces = self.title();
        pieces.push(whole(What::Chart, LEAST_CHART));
        pieces.push(whole(What::Gap, Mm(1.5)));
        pieces.extend(self.table(Which::Legs, self.legs.rows()));
        pieces.push(whole(What::Gap, Mm(1.5)));
        pieces.extend(self.facts());
        if let Some(tide) = &self.content.tide {
            pieces.push(
                self.heading(&format!("Tide at {}, {} from the start", tide.port, tide.away)),
            );
            pieces.push(whole(What::Tide, curve::HIGH));
            pieces.extend(self.paragraph(&format!("Told {}.", tide.source)));
        }
        let ways_out = self.ways_out.as_ref().map_or(0, Table::rows);
        if ways_out > 0 {
            pieces.push(self.heading("Ways out: landings in sight within 1 NM of the legs"));
            pieces.extend(self.table(Which::WaysOut, ways_out));
            pieces.push(whole(What::Gap, Mm(1.5)));
        } else if !self.content.legs.is_empty() {
            pieces.extend(self.paragraph("Ways out: no landing in sight within 1 NM of the legs."));
        }
        for note in &self.content.notes {
            pieces.extend(self.paragraph(note));
        }
        pieces
    }

    /// The facts, each in a line of its own; in small type, where room is scarce, one after the other.
    fn facts(&self) -> Vec<Piece<What>> {
        let facts = self.content.facts.iter();
        let facts: Vec<String> = facts.map(|(name, words)| format!("{name}: {words}")).collect();
        if self.size < Pt(9.0) {
            return self.paragraph(&facts.join(" · "));
        }
        facts.iter().flat_map(|fact| self.paragraph(fact)).collect()
    }

    fn title(&self) -> Vec<Piece<What>> {
        let size = self.size + Pt(2.0);
        let width = self.area.width;
        let title = set::lines(Face::Bold, &self.content.title, size, width);
        let mut pieces: Vec<Piece<What>> =
            title.into_iter().map(|line| self.line(line, Face::Bold, size)).collect();
        let chart = set::lines(Face::Regular, &self.content.chart, self.size, width);
        pieces.extend(chart.into_iter().map(|line| self.line(line, Face::Regular, self.size)));
        pieces.push(whole(What::Gap, Mm(1.0)));
        pieces
    }

    fn line(&self, words: String, face: Face, size: Pt) -> Piece<What> {
        whole(What::Line(words, face, size), leading(size))
    }

    fn paragraph(&self, words: &str) -> Vec<Piece<What>> {
        let lines = set::lines(Face::Regular, words, self.size, self.area.width);
        lines.into_iter().map(|line| self.line(line, Face::Regular, self.size)).collect()
    }

    fn heading(&self, words: &str) -> Piece<What> {
        let height = leading(self.size) + Mm(1.2);
        Piece { what: What::Heading(words.to_owned()), height, keep: Mm(12.0) }
    }

    fn table(&self, which: Which, rows: usize) -> Vec<Piece<What>> {
        let height = |index| match which {
            Which::Legs => self.legs.row_height(index),
            Which::WaysOut => {
                self.ways_out.as_ref().map_or(Mm::ZERO, |table| table.row_height(index))
            }
        };
        let row = |index| whole(What::Row(which, index), height(index));
        std::iter::once(self.head(which)).chain((0..rows).map(row)).collect()
    }

    fn draw(&self, placed: &Placed<What>, chartlet: &Chartlet<'_>) -> Result<Vec<Item>, OffGrid> {
        let area = placed.area;
        let corner = Spot { x: area.left, y: area.top };
        let table = |which: Which| match which {
            Which::Legs => Some(&self.legs),
            Which::WaysOut => self.ways_out.as_ref(),
        };
        Ok(match &placed.what {
            What::Line(words, face, size) => vec![text(words, *face, *size, corner)],
            What::Heading(words) => {
                let lower = corner.moved(Mm::ZERO, Mm(1.2));
                let size = set::shrunk(Face::Bold, words, self.size, area.width);
                let words = set::cut(Face::Bold, words, size, area.width);
                vec![text(&words, Face::Bold, size, lower)]
            }
            What::Head(which) => table(*which).map(|table| table.head(corner)).unwrap_or_default(),
            What::Row(which, index) => {
                table(*which).map(|table| table.row(*index, corner)).unwrap_or_default()
            }
            What::Chart => match around(chartlet.route, &chartlet.chart.grid) {
                Some(extent) => chartlet.draw(area, Part::All(extent))?.items,
                None => chartlet.draw(area, Part::All(chartlet.chart.extent))?.items,
            },
            What::Tide => {
                self.content.tide.as_ref().map(|tide| curve::items(tide, area)).unwrap_or_default()
            }
            What::Gap => Vec::new(),
        })
    }

    /// The cautions and the number of the page.
    fn footer(&self, all: Area, page: usize, pages: usize) -> Vec<Item> {
        let height = leading(LEAST) * (self.foot.len() + 1) as f64;
        let top = all.bottom() - height;
        let ends = [all.left, all.right()].map(|x| Spot { x, y: top - Mm(0.7) });
        let mut items = vec![Item::stroke(Outline::line(ends), Stroke::black(0.12))];
        let number = format!("{} · page {page} of {pages}", self.content.title);
        let number = set::cut(Face::Regular, &number, LEAST, all.width);
        let lines = self.foot.iter().cloned().chain([number]);
        for (index, words) in lines.enumerate() {
            let corner = Spot { x: all.left, y: top + leading(LEAST) * index as f64 };
            items.push(text(&words, Face::Regular, LEAST, corner));
        }
        items
    }
}

fn whole(what: What, height: Mm) -> Piece<What> {
    Piece { what, height, keep: Mm::ZERO }
}

/// A line whose upper left corner lies there.
fn text(words: &str, face: Face, size: Pt, corner: Spot) -> Item {
    let at = corner.moved(Mm::ZERO, Mm::from(size) * 0.93);
    Text { face, ..Text::new(words, at, size) }.into()
}

/// What a chart of a route shows: its points and lines and a little around them.
fn around(route: Option<&Route>, grid: &Grid) -> Option<Extent> {
    let route = route?;
    let legs = (0..route.points.len().saturating_sub(1)).filter_map(|leg| route.line_of(leg));
    let points = route.points.iter().map(|point| point.at).chain(legs.flatten());
    let points = points.filter_map(|at| {
        let there = grid.forward(at).ok()?.point;
        Some(Point { x: there.easting.as_metres(), y: there.northing.as_metres() })
    });
    let (mut low, mut high): (Option<Point>, Option<Point>) = (None, None);
    for point in points {
        low = Some(low.map_or(point, |low| Point { x: low.x.min(point.x), y: low.y.min(point.y) }));
        high = Some(
            high.map_or(point, |high| Point { x: high.x.max(point.x), y: high.y.max(point.y) }),
        );
    }
    let (low, high) = (low?, high?);
    // A little around it, and of a single point its neighbourhood.
    let margin = (high.x - low.x).max(high.y - low.y).mul_add(0.06, 150.0);
    let more = Point { x: margin, y: margin };
    Some(Extent::new(low - more, high + more))
}
