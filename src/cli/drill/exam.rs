//! A test on paper: questions with a table for answers and marks, the chart to work on, and the answers apart.

mod about;
mod blocks;
mod pencil;
#[cfg(test)]
mod tests;

use std::path::PathBuf;

use anyhow::Context;
use clap::Args;
use paper::draw::Page;
use paper::leaflet::{Block, Leaflet, Paper};
use paper::map::Asked;
use paper::workchart::Workchart;
use practice::{Ground, Level, Question, Sheet};

use super::questions::{Drill, caution};
use super::{Kinds, kinds, set, water};
use crate::day::Water;
use crate::output::{Format, PagesOut};
use crate::worksheet::{Answers, SheetSize};
use crate::{Exit, Io};

/// A test on paper.
///
/// Questions with a table for answers and marks, the time allowed, the chart to work on with ruler and protractor at a stated
/// scale, and the worked answers. The questions lie on a part of the chart that one page shows, at 1:50,000 where it can be; those of
/// a set do so where it says for which sheet it is. The same set, or the same chart, kind, level, seed and size, give the same paper
/// on every machine.
/// PDF, SVG, PNG, text of 80 columns or Markdown, by the ending of the file's name.
#[derive(Debug, Args)]
pub(super) struct PaperArgs {
    /// A coach's exercise set; - for standard input
    #[arg(long, value_name = "FILE", conflicts_with_all = ["kind", "questions", "seed", "level", "chart"])]
    set: Option<PathBuf>,
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
    /// The size of the chart's page, which lies on its side where that makes its scale larger; the set's own, or a4, if none is given
    #[arg(long, value_enum)]
    size: Option<SheetSize>,
    /// Leave the chart out, for a class that has its own
    #[arg(long)]
    no_chart: bool,
    /// Where the answers are
    #[arg(long, value_enum, default_value_t = Answers::With)]
    answers: Answers,
    #[command(flatten)]
    to: PagesOut,
}

/// The formats of a paper, that of standard output first.
const FORMATS: [Format; 5] =
    [Format::Text, Format::Pdf, Format::Svg, Format::Png, Format::Markdown];

/// Below this scale a chart is small for a ruler.
const SMALL: u32 = 100_000;

/// A test.
struct Test {
    title: String,
    subtitle: String,
    /// What the coach says; may be empty.
    words: String,
    /// How many minutes are allowed.
    minutes: u16,
    questions: Vec<Question>,
    /// What the questions are about.
    asked: Asked,
    /// The sheet of its chart.
    sheet: Sheet,
}

pub(super) fn run(args: &PaperArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.to.output.format(&FORMATS, io)?;
    let apart = match args.answers {
        Answers::Apart => Some(args.to.beside("answers")?),
        _ => None,
    };
    for to in [Some(&args.to), apart.as_ref()].into_iter().flatten() {
        to.output.ready()?;
    }
    let (mut test, water) = args.test(io)?;
    let asked = std::mem::take(&mut test.asked);
    let chart = args.chart(&asked, &test, &water)?;
    if let Some(chart) = &chart {
        test.questions =
            test.questions.iter().map(|it| pencil::marked(it, chart.pencil())).collect();
        args.say_if_small(chart, io);
    }
    let questions = blocks::asked(&test, &water, chart.as_ref());
    let answers = || blocks::answers(&test);
    let (first, with) = match args.answers {
        Answers::Only => (answers(), None),
        Answers::Apart | Answers::None => (questions, None),
        Answers::With => (questions, Some(answers())),
    };
    let chart = chart.filter(|_| args.answers != Answers::Only);
    let write = |first, with, chart, to: &PagesOut, io: &mut Io<'_>| {
        test.write([Some(first), with], chart, &water, (to, format), io)
    };
    write(first, with, chart.as_ref(), &args.to, io)?;
    if let Some(to) = apart {
        write(answers(), None, None, &to, io)?;
    }
    Ok(Exit::Done)
}

impl PaperArgs {
    fn test(&self, io: &mut Io<'_>) -> anyhow::Result<(Test, Water)> {
        let mut test = Test {
            title: String::new(),
            subtitle: String::new(),
            words: String::new(),
            minutes: 0,
            questions: Vec::new(),
            asked: Asked::default(),
            sheet: self.size.unwrap_or(SheetSize::A4).sheet(),
        };
        let (minutes, water) = match &self.set {
            Some(path) => {
                let of = set::open(path, io)?;
                test.title = format!("Test: {}", of.set.title);
                test.subtitle = of.water.chart.title.clone();
                test.sheet = self.size.map(SheetSize::sheet).or(of.set.sheet).unwrap_or(test.sheet);
                (test.words, test.questions) = (of.set.words, of.questions);
                (of.set.minutes, of.water)
            }
            None => {
                let water = water(self.chart.as_ref(), io)?;
                let on = (&water, Some(test.sheet));
                let drill = Drill::new(self.kind, self.level, Some(self.seed), self.questions, on)?;
                let (what, level) = (drill.kinds.what(), drill.level.number());
                test.title = format!("Test: {}", drill.chart);
                test.subtitle = format!("{what}, level {level}, paper {}", drill.seed);
                test.questions = drill.questions;
                (None, water)
            }
        };
        let by_kind = test.questions.iter().map(|it| it.kind.skill().minutes()).sum::<u16>();
        test.minutes = minutes.unwrap_or(by_kind.div_ceil(5) * 5);
        let ground = Ground::new(&water.chart, &water.coast);
        test.asked = about::about(&test.questions, ground.spots());
        Ok((test, water))
    }

    /// The chart to work on; nothing where no question needs one, or none is wanted.
    fn chart<'a>(
        &self,
        asked: &'a Asked,
        test: &Test,
        water: &'a Water,
    ) -> anyhow::Result<Option<Workchart<'a>>> {
        if self.no_chart || asked.is_empty() {
            return Ok(None);
        }
        let title = format!("{}, chart", test.title);
        let paper = match test.sheet {
            Sheet::A4 => Paper::A4,
            Sheet::A3 => Paper::A3,
        };
        Ok(Some(Workchart::new(&water.chart, &water.coast, asked, &title, paper)?))
    }

    /// Says that what is asked about lies far apart, and what helps.
    fn say_if_small(&self, chart: &Workchart<'_>, io: &mut Io<'_>) {
        if chart.scale().one_to() > SMALL {
            let helps = match self.set {
                Some(_) => {
                    "a sheet in the set, such as sheet: A4, has its questions lie closer together"
                }
                None => "--size a3, other kinds or fewer questions may make it larger",
            };
            let scale = chart.scale();
            let _ = writeln!(
                io.errors,
                "the chart is drawn at {scale}, which is small for a ruler; {helps}"
            );
        }
    }
}

impl SheetSize {
    const fn sheet(self) -> Sheet {
        match self {
            SheetSize::A4 => Sheet::A4,
            SheetSize::A3 => Sheet::A3,
        }
    }
}

impl Test {
    /// Puts a document there: its parts each on pages of their own, the chart between them.
    fn write(
        &self,
        parts: [Option<Vec<Block<'static>>>; 2],
        chart: Option<&Workchart<'_>>,
        water: &Water,
        (to, format): (&PagesOut, Format),
        io: &mut Io<'_>,
    ) -> anyhow::Result<Exit> {
        let leaflet = |blocks| Leaflet {
            title: self.title.clone(),
            subtitle: self.subtitle.clone(),
            blocks,
            foot: vec![caution(water.chart.invented).to_owned()],
        };
        let [first, second] = parts;
        let first = leaflet(first.unwrap_or_default());
        let second = second.map(leaflet);
        let set = || -> anyhow::Result<Vec<Page>> {
            let of = |it: &Leaflet<'_>| it.set(&Paper::A4).context("the paper cannot be set");
            let mut pages = of(&first)?;
            if let Some(chart) = chart {
                pages.extend(chart.pages().context("the chart cannot be drawn")?);
            }
            pages.extend(second.as_ref().map(of).transpose()?.unwrap_or_default());
            Ok(pages)
        };
        let more = second.iter().flat_map(|it| it.blocks.clone());
        let blocks = first.blocks.iter().cloned().chain(more).collect();
        to.write_document(&leaflet(blocks), set, format, io)
    }
}
