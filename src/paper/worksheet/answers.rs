//! The worked answers.

use nav::text;
use plan::table::{self, LegRow, PointRow, Style};

use super::working::{self, Allowed};
use super::{Worksheet, questions};
use crate::leaflet::{Block, Column, Table};
use crate::map::letter;

pub(super) fn blocks<'b>(sheet: &'b Worksheet<'_>) -> Vec<Block<'b>> {
    let grid = &sheet.water.chart.grid;
    let points = table::points(&sheet.route, &sheet.reckoning, grid, Style::default());
    let legs = table::legs(&sheet.route, &sheet.reckoning, grid, Style::default());
    let allowed = Allowed::of(sheet);
    let mut blocks = vec![
        Block::Heading("Answers".to_owned()),
        Block::Table(Table::new(questions::columns(sheet), rows(sheet, &points, &legs))),
        Block::Paragraph(allowed.said(sheet)),
    ];
    if sheet.by_grid() {
        blocks.push(Block::Heading("References: along, then up".to_owned()));
        blocks.push(Block::Table(references(sheet, &points)));
    }
    blocks.push(Block::Heading("Legs: bearing, distance, time".to_owned()));
    blocks.push(Block::List(RULES.map(str::to_owned).to_vec()));
    for index in 0..legs.len() {
        blocks.push(Block::Together(vec![
            Block::Strong(format!("{} to {}", letter(index), letter(index + 1))),
            Block::List(working::steps(sheet, index, &allowed)),
        ]));
    }
    blocks
}

/// How hands work, in rules.
const RULES: [&str; 4] = [
    "Grid bearing: draw the line, lay the protractor's middle on the point that is left and its north along the grid \
     lines, read clockwise.",
    "From grid to true: add convergence where grid north is east of true north, take it off where it is west.",
    "From true to magnetic: add variation west, take off variation east. Back bearing: add 180°, or take it off from 180° \
     on.",
    "Distance: millimetres under the ruler times the metres in one; a nautical mile is 1.852 km. Time: distance by pace; \
     stops come on top. Clock times carry the seconds: a sum of whole minutes may be one off.",
];

/// The table of questions, filled in.
fn rows(sheet: &Worksheet<'_>, points: &[PointRow], legs: &[LegRow]) -> Vec<Vec<String>> {
    let by_grid = sheet.by_grid();
    let row = |(index, point): (usize, &PointRow)| {
        let leg = index.checked_sub(1).and_then(|before| legs.get(before));
        let PointRow { reference, position, clock, .. } = point.clone();
        let reference = if by_grid { reference } else { position };
        let Some(leg) = leg.cloned() else {
            let none = std::iter::repeat_n("–".to_owned(), questions::COLUMNS - 3);
            return [letter(index), reference].into_iter().chain(none).chain([clock]).collect();
        };
        let between = format!("{}–{}", letter(index - 1), letter(index));
        vec![
            between,
            reference,
            leg.from_grid,
            leg.from_magnetic,
            leg.back_magnetic,
            leg.kilometres,
            leg.nautical_miles,
            leg.time,
            clock,
        ]
    };
    points.iter().enumerate().map(row).collect()
}

/// How each reference is counted, and where the point is.
fn references(sheet: &Worksheet<'_>, points: &[PointRow]) -> Table {
    let heads = [
        "",
        "along: line on the left, tenths",
        "up: line below, tenths",
        "reference",
        "latitude and longitude",
    ];
    let mut columns: Vec<Column> = heads.into_iter().map(Column::words).collect();
    let named = points.iter().any(|point| !point.name.is_empty());
    columns.extend(named.then(|| Column::words("name")));
    let row = |(index, point): (usize, &PointRow)| {
        let [along, up] = sheet.counted(index).unwrap_or_default();
        let PointRow { name, reference, position, .. } = point.clone();
        let mut row = vec![letter(index), along, up, reference, position];
        row.extend(named.then_some(name));
        row
    };
    Table::new(columns, points.iter().enumerate().map(row).collect())
}

impl Allowed {
    /// What a hand is allowed, in words.
    fn said(&self, sheet: &Worksheet<'_>) -> String {
        let scale = sheet.scale();
        let millimetre = text::kilometres(self.metres * nav::Length::METRE);
        let minutes = text::duration(self.time);
        let read = match self.tenths {
            _ if !sheet.by_grid() => "1 mm in latitude and in longitude".to_owned(),
            1 => "1 tenth in each half of a reference".to_owned(),
            more => format!("{more} tenths in each half of a reference"),
        };
        format!(
            "Right by hand is what is within {read}; 2° in a bearing, or more on a short \
             line, where it is said; 1 mm in a distance, which is {millimetre} at {scale}; {minutes} in the time of a leg, \
             and as much more with each leg in a clock time. These are allowances of common practice, from no published \
             source."
        )
    }
}
