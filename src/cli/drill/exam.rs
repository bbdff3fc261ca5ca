//! A test on paper: questions with a table for answers and marks, and the answers apart.

use std::path::PathBuf;

use anyhow::Context;
use clap::Args;
use paper::draw::Mm;
use paper::leaflet::{Block, Column, Field, Leaflet, Paper, Table};
use practice::{Level, Question};

use super::questions::Drill;
use super::{Kinds, kinds, water};
use crate::output::{Format, PagesOut};
use crate::worksheet::Answers;
use crate::{Exit, Io};

/// A test on paper.
///
/// Questions with a table for answers and marks, the time allowed, and the worked answers. The same chart, kind, level and seed
/// give the same paper on every machine. PDF, SVG, PNG, text of 80 columns or Markdown, by the ending of the file's name.
#[derive(Debug, Args)]
pub(super) struct PaperArgs {
    /// The kind of exercise; mixed for all of them
    #[arg(long, value_name = "KIND", default_value = "mixed", value_parser = kinds)]
    kind: Kinds,
    /// How many questions
    #[arg(long, value_name = "N", default_value_t = 20, value_parser = clap::value_parser!(u16).range(1..=200))]
    questions: u16,
    /// What the questions are thrown from
    #[arg(long, value_name = "N", default_value_t = 1)]
    seed: u64,
    /// How hard: 1 to 3
    #[arg(long, value_name = "LEVEL", default_value = "1")]
    level: Level,
    /// The chart; the built-in practice chart if none is given
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// Where the answers are
    #[arg(long, value_enum, default_value_t = Answers::With)]
    answers: Answers,
    #[command(flatten)]
    to: PagesOut,
}

/// The formats of a paper, that of standard output first.
const FORMATS: [Format; 5] =
    [Format::Text, Format::Pdf, Format::Svg, Format::Png, Format::Markdown];
/// Room for an answer, and for a mark.
const ANSWER: Mm = Mm(70.0);
const MARK: Mm = Mm(18.0);

pub(super) fn run(args: &PaperArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.to.output.format(&FORMATS, io)?;
    let apart = match args.answers {
        Answers::Apart => Some(args.to.beside("answers")?),
        _ => None,
    };
    for to in [Some(&args.to), apart.as_ref()].into_iter().flatten() {
        to.output.ready()?;
    }
    let water = water(args.chart.as_ref(), io)?;
    let drill = Drill::new(args.kind, args.level, Some(args.seed), args.questions, &water)?;
    let mut first = match args.answers {
        Answers::Only => leaflet(&drill, answers(&drill)),
        _ => leaflet(&drill, asked(&drill)),
    };
    if args.answers == Answers::With {
        first.blocks.push(Block::NewPage);
        first.blocks.extend(answers(&drill));
    }
    write(&first, format, &args.to, io)?;
    if let Some(to) = apart {
        write(&leaflet(&drill, answers(&drill)), format, &to, io)?;
    }
    Ok(Exit::Done)
}

fn write(
    leaflet: &Leaflet<'_>,
    format: Format,
    to: &PagesOut,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let set = || leaflet.set(&Paper::A4).context("the paper cannot be set");
    to.write_document(leaflet, set, format, io)
}

fn leaflet(drill: &Drill, blocks: Vec<Block<'static>>) -> Leaflet<'static> {
    let (level, seed) = (drill.level.number(), drill.seed);
    Leaflet {
        title: format!("Test: {}", drill.chart),
        subtitle: format!("{}, level {level}, paper {seed}", drill.kinds.what()),
        blocks,
        foot: vec![drill.caution().to_owned()],
    }
}

/// The questions, and a table for answers and marks.
fn asked(drill: &Drill) -> Vec<Block<'static>> {
    let count = drill.questions.len();
    let minutes: u16 = drill.questions.iter().map(|it| it.kind.skill().minutes()).sum();
    let allowed = minutes.div_ceil(5) * 5;
    let blank = ["Name", "Date"].map(Field::blank).into_iter();
    let mark = [Field::blank(format!("Mark of {count}"))];
    let said = format!(
        "Time allowed: {allowed} minutes. Work on the chart {}; one mark for each question. Answers go in the table at the end.",
        drill.chart
    );
    let mut blocks = vec![Block::Fields(blank.chain(mark).collect()), Block::Paragraph(said)];
    blocks.extend((1..).zip(&drill.questions).map(|(number, it)| question(number, it)));
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
        let choices = choices.map(|(letter, it)| format!("{letter}) {}", it.text));
        blocks.extend(choices.map(Block::Paragraph));
    }
    Block::Together(blocks)
}

/// The answers, how near is right, and how they are got.
fn answers(drill: &Drill) -> Vec<Block<'static>> {
    let mut blocks = vec![Block::Heading("Worked answers".to_owned())];
    for (number, it) in (1..).zip(&drill.questions) {
        let near = it.how_near().filter(|_| it.choices.is_empty());
        let near = near.map_or(String::new(), |near| format!(", {near}"));
        let told = format!("{number} · {}{near}", it.told());
        blocks.push(Block::Together(vec![Block::Strong(told), Block::List(it.steps.clone())]));
    }
    blocks
}
