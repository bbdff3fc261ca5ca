//! A drill held: a question, an answer, a mark, and the next.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::time::Instant;

use jiff::{SignedDuration, Timestamp};
use practice::memory::Answered;
use practice::{Mark, MistakeKind, Question};

use super::keep::Keeper;
use super::page;
use super::questions::Drill;
use crate::Io;
use crate::page::paragraph;

/// How it has gone so far.
#[derive(Default)]
pub(super) struct Tally {
    answered: usize,
    right: usize,
    mistakes: BTreeMap<MistakeKind, usize>,
}

/// What was typed.
enum Typed {
    Line(String),
    /// The input has ended, or the drill was ended.
    End,
}

/// Asks, marks and counts, until the questions or the input are at an end. What nobody is there to answer is printed all the
/// same.
pub(super) fn hold(drill: &Drill, keeper: &mut Keeper, io: &mut Io<'_>) -> io::Result<()> {
    page::head(drill, io.output)?;
    how(io)?;
    let (mut tally, mut listens) = (Tally::default(), true);
    let count = drill.questions.len();
    for (number, question) in (1..).zip(&drill.questions) {
        page::question(number, Some(count), question, io.output)?;
        if listens {
            match put(question, &drill.chart, keeper, io)? {
                Put::Marked(mark) => tally.note(&mark),
                Put::Passed => {}
                Put::Ended => break,
                Put::Nobody => listens = false,
            }
        }
    }
    writeln!(io.output)?;
    tally.told(count, keeper, io.output)?;
    paragraph("", drill.caution(), io.output)
}

/// Says what can be typed.
pub(super) fn how(io: &mut Io<'_>) -> io::Result<()> {
    let how = "Answer a line each; ? is a hint, an empty line passes on, q ends.";
    paragraph("", how, io.output)
}

/// What came of a question.
pub(super) enum Put {
    Marked(Mark),
    Passed,
    Ended,
    Nobody,
}

/// Asks until there is an answer that can be read, and keeps what came of it.
pub(super) fn put(
    question: &Question,
    chart: &str,
    keeper: &mut Keeper,
    io: &mut Io<'_>,
) -> io::Result<Put> {
    let (began, mut hints) = (Instant::now(), 0);
    let put = asked(question, &mut hints, io)?;
    let mark = match &put {
        Put::Marked(mark) => Some(mark),
        Put::Passed => None,
        Put::Ended | Put::Nobody => return Ok(put),
    };
    let took = SignedDuration::try_from(began.elapsed()).unwrap_or(SignedDuration::ZERO);
    let answered = Answered::new(question, chart, mark, Timestamp::now(), took);
    keeper.keep(answered.after_hints(hints), io);
    Ok(put)
}

fn asked(question: &Question, given: &mut u32, io: &mut Io<'_>) -> io::Result<Put> {
    let mut hints = question.hints.iter();
    loop {
        let Typed::Line(line) = typed(io)? else { return Ok(Put::Nobody) };
        match line.trim() {
            "q" | "quit" => return Ok(Put::Ended),
            "?" => {
                let hint = hints.next();
                *given += u32::from(hint.is_some());
                let hint = hint.map_or("There is no other hint.", String::as_str);
                paragraph("   ", hint, io.output)?;
            }
            "" => {
                paragraph("   ", &format!("It is {}.", question.told()), io.output)?;
                page::steps(question, io.output)?;
                return Ok(Put::Passed);
            }
            line => match question.mark(line) {
                Ok(mark) => {
                    page::mark(question, &mark, io.output)?;
                    return Ok(Put::Marked(mark));
                }
                Err(error) => {
                    let said = crate::Harmless(format!("{error}.")).to_string();
                    paragraph("   ", &said, io.output)?;
                }
            },
        }
    }
}

fn typed(io: &mut Io<'_>) -> io::Result<Typed> {
    write!(io.output, "> ")?;
    io.output.flush()?;
    let mut line = String::new();
    let read = io.input.read_line(&mut line)?;
    if !io.to_terminal || read == 0 {
        // Nobody's Enter ended the line that is seen.
        writeln!(io.output)?;
    }
    Ok(if read == 0 { Typed::End } else { Typed::Line(line) })
}

impl Tally {
    pub(super) fn note(&mut self, mark: &Mark) {
        self.answered += 1;
        self.right += usize::from(mark.right);
        if let Some(mistake) = mark.mistake {
            *self.mistakes.entry(mistake).or_default() += 1;
        }
    }

    /// Says how it went, of so many questions, and what recurs.
    pub(super) fn told(&self, count: usize, keeper: &Keeper, to: &mut dyn Write) -> io::Result<()> {
        if self.answered == 0 {
            return Ok(());
        }
        let mut said = format!("{} of {count} right.", self.right);
        if self.answered < count {
            said += &format!(" {} not answered.", count - self.answered);
        }
        paragraph("", &said, to)?;
        if !self.mistakes.is_empty() {
            let times = |(mistake, times): (&MistakeKind, &usize)| match times {
                1 => mistake.name().to_owned(),
                times => format!("{} ({times} times)", mistake.name()),
            };
            let all: Vec<String> = self.mistakes.iter().map(times).collect();
            paragraph("", &format!("To look at again: {}.", all.join("; ")), to)?;
        }
        keeper.tell_what_recurs(to)?;
        writeln!(to)
    }
}
