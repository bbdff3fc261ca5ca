//! The first page: the chart and what is asked.

use nav::magnetic::VariationSource;
use nav::text;

use super::{Worksheet, layout, romer};
use crate::draw::{Area, Item, Mm, Pt, Spot};
use crate::font::Face;
use crate::leaflet::{Block, Column, Figure, High, Table};
use crate::map::{self, Part, letter};
use crate::set::{self, leading};

/// Between the romer and the words beside it.
const BESIDE: Mm = Mm(4.0);
/// The type of those words.
const SIZE: Pt = Pt(9.0);
/// A kilometre, whose tenths a reference of six figures counts.
const KILOMETRE: f64 = 1000.0;

/// What stands over the columns.
const HEADS: [&str; COLUMNS] = ["", "reference", "°G", "°M", "back °M", "km", "NM", "min", "at"];
/// How many there are.
pub(super) const COLUMNS: usize = 9;

pub(super) fn blocks<'b>(sheet: &'b Worksheet<'_>) -> Vec<Block<'b>> {
    let mut blocks = vec![Block::Figure(chart(sheet)), Block::Paragraph(given(sheet))];
    blocks.extend(romer(sheet).map(Block::Figure));
    blocks.push(Block::Table(Table::for_a_pen(columns(sheet), rows(sheet))));
    blocks
}

pub(super) fn columns(sheet: &Worksheet<'_>) -> Vec<Column> {
    let mut columns: Vec<Column> = HEADS.into_iter().map(Column::words).collect();
    if !sheet.by_grid() {
        columns[1] = Column::words("lat. and long.").at_least(Mm(32.0));
    }
    columns
}

/// A row for each point, with the leg that ends there; only when the first is left is given.
fn rows(sheet: &Worksheet<'_>) -> Vec<Vec<String>> {
    let count = sheet.reckoning.points.len();
    let row = |index: usize| {
        let mut row = vec![String::new(); COLUMNS];
        row[0] = letter(index);
        if index == 0 {
            row[2..].fill("–".to_owned());
            row[COLUMNS - 1] = clock(sheet, 0);
        } else {
            row[0] = format!("{}–{}", letter(index - 1), letter(index));
        }
        row
    };
    (0..count).map(row).collect()
}

/// When a point is reached, the first one left.
pub(super) fn clock(sheet: &Worksheet<'_>, index: usize) -> String {
    let at = sheet.reckoning.points.get(index).and_then(|point| point.arrives.as_ref());
    at.map(text::clock).unwrap_or_default()
}

fn chart<'b>(sheet: &'b Worksheet<'_>) -> Figure<'b> {
    let last = letter(sheet.legs());
    let words = format!(
        "The chart at {} with the points A to {last} is on the printed sheet.",
        sheet.scale()
    );
    let high = High::Rest(layout::least(sheet));
    let part = Part::Within { need: sheet.need, scale: sheet.scale(), margin: layout::MARGIN };
    Figure::chart(sheet.chartlet(), part, high, "").in_words(words)
}

/// What is given: norths, pace, start and stops.
fn given(sheet: &Worksheet<'_>) -> String {
    let mut said = vec![norths(sheet)];
    let rest = sheet.route.pace.rest_per_hour();
    let rest = if rest.is_zero() {
        String::new()
    } else {
        format!(" with {} rest in each hour", text::duration(rest))
    };
    let start = sheet.route.departure.as_ref().map_or_else(String::new, |departure| {
        format!(", leaving A at {} ({})", clock(sheet, 0), departure.zone_name())
    });
    said.push(format!("Pace {}{rest}{start}.", sheet.route.pace));
    let stop = |(index, point): (usize, &plan::PointReading)| {
        let time = text::duration(point.stop);
        (!point.stop.is_zero()).then(|| format!("{time} at {}", letter(index)))
    };
    let stops: Vec<String> = sheet.reckoning.points.iter().enumerate().filter_map(stop).collect();
    if !stops.is_empty() {
        said.push(format!("Stops: {}.", stops.join(", ")));
    }
    said.push(
        "Every leg is a straight line, to be worked by hand: where it ends, the bearing from the grid (G) and by compass \
         (M), the bearing back, distance, minutes and clock time."
            .to_owned(),
    );
    said.join(" ")
}

/// Where grid and magnetic north lie at the middle of the chart.
fn norths(sheet: &Worksheet<'_>) -> String {
    let norths = sheet.chartlet().norths(&sheet.frame);
    let grid = format!("Grid north lies {} of true north", norths.convergence);
    let (Some((at, _)), Some(departure)) = (norths.variation, &sheet.route.departure) else {
        return format!("{grid}; magnetic north is not known without a date.");
    };
    let source = match sheet.route.variation {
        VariationSource::Model => "World Magnetic Model 2025",
        VariationSource::Printed(_) => "from the variation printed on the chart",
    };
    let date = departure.moment().strftime("%-d %B %Y");
    format!("{grid}, magnetic north {} of true north on {date} ({source}).", at.variation)
}

/// The romer with how it is used; nothing where no reference of six figures can be read with one.
fn romer<'b>(sheet: &Worksheet<'_>) -> Option<Figure<'b>> {
    let side = sheet.square();
    let has_one = sheet.by_grid()
        && sheet.frame.interval() == KILOMETRE
        && (Mm(9.9)..=Mm(60.0)).contains(&side);
    if !has_one {
        return None;
    }
    let words = format!(
        "A romer for {}: cut it out along the broken line. Lay the corner between its two ruled edges on the point, the \
         edges along the grid. The grid line on the left crosses the upper edge at the tenths along, the grid line below \
         crosses the right edge at the tenths up. Count whole tenths, do not round.",
        sheet.scale()
    );
    let size = romer::size(side);
    let said = words.clone();
    let figure = Figure::new(High::Of(size.height), "", move |area: Area| {
        let mut items = romer::items(side, Spot { x: area.left, y: area.top });
        let left = area.left + size.width + BESIDE;
        items.extend(beside(&said, left, area));
        Ok(items)
    });
    Some(figure.in_words("A romer to cut out is on the printed sheet."))
}

/// Words from `left` to the right edge of an area.
fn beside(words: &str, left: Mm, area: Area) -> Vec<Item> {
    // A romer is as high as these words at the least on the narrowest paper, where they take smaller type.
    let width = area.right() - left;
    let high =
        |size: Pt| leading(size) * set::lines(Face::Regular, words, size, width).len() as f64;
    let size = [SIZE, Pt(8.0)].into_iter().find(|size| high(*size) <= area.height);
    let size = size.unwrap_or(map::LEAST);
    let lines = set::lines(Face::Regular, words, size, width);
    let line = |(index, words): (usize, String)| {
        let y = area.top + leading(size) * index as f64;
        set::line(&words, Face::Regular, size, Spot { x: left, y })
    };
    lines.into_iter().enumerate().map(line).collect()
}
