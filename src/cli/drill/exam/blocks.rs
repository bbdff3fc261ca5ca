//! What stands on the pages of a test.

use paper::draw::Mm;
use paper::leaflet::{Block, Column, Field, Table};
use paper::workchart::Workchart;
use practice::Question;

use super::Test;
use crate::day::Water;

/// Room for an answer, and for a mark.
const ANSWER: Mm = Mm(70.0);
const MARK: Mm = Mm(18.0);

/// The questions, and a table for answers and marks.
pub(super) fn asked(
    test: &Test,
    water: &Water,
    chart: Option<&Workchart<'_>>,
) -> Vec<Block<'static>> {
    let count = test.questions.len();
    let blank = ["Name", "Date"].map(Field::blank).into_iter();
    let mark = [Field::blank(format!("Mark of {count}"))];
    let mut blocks = vec![Block::Fields(blank.chain(mark).collect())];
    if !test.words.is_empty() {
        blocks.push(Block::Paragraph(test.words.clone()));
    }
    let minutes = test.minutes;
    let said = format!(
        "Time allowed: {minutes} minutes. {} One mark for each question. Answers go in the table at the end.",
        work_on(&water.chart.title, chart)
    );
    blocks.push(Block::Paragraph(said));
    blocks.extend((1..).zip(&test.questions).map(|(number, it)| question(number, it)));
    let columns = vec![
        Column::figures(""),
        Column::words("answer").at_least(ANSWER),
        Column::words("mark").at_least(MARK),
    ];
    let rows = (1..=count).map(|number| vec![number.to_string(), String::new(), String::new()]);
    let total = vec!["".to_owned(), format!("total of {count}"), String::new()];
    let table = Table::for_a_pen(columns, rows.chain([total]).collect());
    blocks.extend([Block::Heading("Answers".to_owned()), Block::Table(table)]);
    blocks
}

/// Which chart to work on.
fn work_on(title: &str, chart: Option<&Workchart<'_>>) -> String {
    let Some(chart) = chart else { return format!("Work on the chart {title}.") };
    format!(
        "Work on the chart {title}, which is drawn at {} on a page of its own behind the questions: printed at full size \
         (100 %) a millimetre is {} m, and half a millimetre, as near as a pencil comes, {} m.",
        chart.scale(),
        f64::from(chart.scale().one_to()) / 1000.0,
        chart.pencil()
    )
}

fn question(number: usize, it: &Question) -> Block<'static> {
    let mut blocks = vec![
        Block::Strong(format!("{number} · {}", it.kind.skill())),
        Block::Paragraph(it.text.clone()),
    ];
    if let Some(given) = &it.given {
        let columns = given.head.iter().map(Column::words).collect();
        blocks.push(Block::Table(Table::new(columns, given.rows.clone())));
    }
    if !it.choices.is_empty() {
        let choices = ('a'..='z').zip(&it.choices);
        let choices: Vec<String> =
            choices.map(|(letter, it)| format!("{letter}) {}", it.text)).collect();
        blocks.push(Block::Paragraph(choices.join("; ")));
    }
    Block::Together(blocks)
}

/// The answers, how near is right, and how they are got.
pub(super) fn answers(test: &Test) -> Vec<Block<'static>> {
    let mut blocks = vec![Block::Heading("Worked answers".to_owned())];
    for (number, it) in (1..).zip(&test.questions) {
        let near = it.how_near().filter(|_| it.choices.is_empty());
        let near = near.map_or(String::new(), |near| format!(", {near}"));
        let told = format!("{number} · {}{near}", it.told());
        blocks.push(Block::Together(vec![Block::Strong(told), Block::List(it.steps.clone())]));
    }
    blocks
}
