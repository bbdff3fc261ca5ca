//! A sitting held: a question, an answer, a mark, and the next.

use std::io::{self, Write};
use std::time::{Duration, Instant};

use jiff::{SignedDuration, Timestamp};
use practice::memory::{Answered, Record};
use practice::{Ground, Mark, MistakeKind, Plan, Question, Sitting};

use super::keep::Keeper;
use super::{page, questions};
use crate::Io;
use crate::day::Water;
use crate::page::paragraph;

/// What was typed.
enum Typed {
    Line(String),
    /// The input has ended, or the drill was ended.
    End,
}

/// Asks, marks and counts, until the questions, the time or the input are at an end. What nobody is there to answer is printed
/// all the same, as far as it does not hang on the answers. Of a set, with the checksum of its chart, it is kept how far it is.
pub(super) fn hold(
    mut sitting: Sitting,
    (water, sum): (&Water, Option<u32>),
    keeper: &mut Keeper,
    io: &mut Io<'_>,
) -> io::Result<()> {
    how(&sitting, io)?;
    let ground = Ground::new(&water.chart, &water.coast);
    let minutes = |minutes: u16| Duration::from_secs(60 * u64::from(minutes));
    let until = sitting.minutes().map(|long| Instant::now() + minutes(long));
    let count = sitting.count();
    while !sitting.is_full() && until.is_none_or(|until| Instant::now() < until) {
        let Some(question) = sitting.next(&keeper.record, &ground, Timestamp::now()) else { break };
        let number = sitting.answered().len() + 1;
        page::question(number, count, &question, io.output)?;
        match put(&question, &water.chart.title, &keeper.record, io)? {
            Put::Answered(answered) => {
                keeper.keep(sitting.note(answered), io);
                if let Some(sum) = sum {
                    keeper.keep_set(&sitting, (&water.chart.title, sum), io);
                }
            }
            Put::Ended => break,
            Put::Nobody => {
                for (number, question) in (number..).zip(sitting.rest(&ground)).skip(1) {
                    page::question(number, count, &question, io.output)?;
                }
                break;
            }
        }
    }
    writeln!(io.output)?;
    told(&sitting, keeper, io.output)?;
    if sum.is_some() && keeper.keeps() && !sitting.answered().is_empty() && !sitting.is_full() {
        let word = format!("Run again, the set goes on at {}.", sitting.place());
        paragraph("", &word, io.output)?;
        writeln!(io.output)?;
    }
    paragraph("", questions::caution(water.chart.invented), io.output)
}

/// Says what can be typed; nothing of hints where the set gives none.
fn how(sitting: &Sitting, io: &mut Io<'_>) -> io::Result<()> {
    let how = match sitting.plan() {
        Plan::Set(set) if !set.hints => "Answer a line each; an empty line passes on, q ends.",
        _ => "Answer a line each; ? is a hint, an empty line passes on, q ends.",
    };
    paragraph("", how, io.output)
}

/// What came of a question.
enum Put {
    Answered(Answered),
    Ended,
    Nobody,
}

/// What came of what was typed.
enum Said {
    Marked(Mark),
    Passed,
    Ended,
    Nobody,
}

/// Asks until there is an answer that can be read.
fn put(question: &Question, chart: &str, record: &Record, io: &mut Io<'_>) -> io::Result<Put> {
    let (began, mut hints) = (Instant::now(), 0);
    let mark = match asked(question, record, &mut hints, io)? {
        Said::Marked(mark) => Some(mark),
        Said::Passed => None,
        Said::Ended => return Ok(Put::Ended),
        Said::Nobody => return Ok(Put::Nobody),
    };
    let took = SignedDuration::try_from(began.elapsed()).unwrap_or(SignedDuration::ZERO);
    let answered = Answered::new(question, chart, mark.as_ref(), Timestamp::now(), took);
    Ok(Put::Answered(answered.after_hints(hints)))
}

fn asked(
    question: &Question,
    record: &Record,
    given: &mut u32,
    io: &mut Io<'_>,
) -> io::Result<Said> {
    let mut hints = question.hints.iter();
    loop {
        let Typed::Line(line) = typed(io)? else { return Ok(Said::Nobody) };
        match line.trim() {
            "q" | "quit" => return Ok(Said::Ended),
            "?" => {
                let hint = hints.next();
                *given += u32::from(hint.is_some());
                let hint = hint.map_or("There is no other hint.", String::as_str);
                paragraph("   ", hint, io.output)?;
            }
            "" => {
                paragraph("   ", &format!("It is {}.", question.told()), io.output)?;
                page::answer(question, io.output)?;
                return Ok(Said::Passed);
            }
            line => match question.read(line) {
                Ok(reply) => {
                    let mark = record.mark(question, &reply);
                    page::mark(question, &mark, &reply, io.output)?;
                    return Ok(Said::Marked(mark));
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

/// Says how it went, and what recurs.
fn told(sitting: &Sitting, keeper: &Keeper, to: &mut dyn Write) -> io::Result<()> {
    let tally = sitting.tally();
    if tally.answered() == 0 {
        return Ok(());
    }
    // Of what is due, only what was put; of a series all that it has.
    let count = match sitting.plan() {
        Plan::Due(_) => tally.put,
        Plan::Kinds { .. } | Plan::Set(_) => sitting.count().unwrap_or(tally.put),
    };
    if let Some(clocked) = sitting.clocked() {
        paragraph("", &clocked.told(), to)?;
    }
    let mut said = format!("{} of {count} right.", tally.right);
    if tally.answered() < count {
        said += &format!(" {} not answered.", count - tally.answered());
    }
    paragraph("", &said, to)?;
    if !tally.mistakes.is_empty() {
        let times = |(mistake, times): (&MistakeKind, &usize)| match times {
            1 => mistake.name().to_owned(),
            times => format!("{} ({times} times)", mistake.name()),
        };
        let all: Vec<String> = tally.mistakes.iter().map(times).collect();
        paragraph("", &format!("To look at again: {}.", all.join("; ")), to)?;
    }
    keeper.tell_what_recurs(to)?;
    writeln!(to)
}
