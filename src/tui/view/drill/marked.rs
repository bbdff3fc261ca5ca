//! What came of a question: the verdict, the mistake by its name, and how the answer is got.

use std::borrow::Cow;

use practice::figure::{Ink, Piece};
use practice::{Question, Shown};

use super::super::ink;
use super::Page;
use super::given::{given, other, words};
use super::put;
use super::rows::{GAP, Part, Rows, piece};
use crate::draw::Whose;
use crate::glyphs::DotSet;
use crate::state::{Drill, Put, Told};

pub(super) fn marked<'a>(
    dots: DotSet,
    drill: &Drill,
    put: &'a Put,
    told: &'a Told,
    page: &mut Page<'a>,
) {
    page.headed_by(drill, put);
    let (it, rows) = (&*put.question, &mut page.body);
    if it.has_figure() && !rows.airy && rows.room >= BESIDE + FIGURE {
        // On a small screen the drawing stands beside the words, so that both are seen at once.
        let words = rows.room - FIGURE;
        let mut beside = Rows::new(FIGURE, false);
        figure(it, told, dots, &mut beside);
        let mut left = Rows::new(words - GAP, false);
        verdict(it, told, &mut left);
        answers(it, told, dots, &mut left);
        steps(it, &mut left);
        near(it, &mut left);
        left.beside(beside, words);
        rows.rows.extend(left.rows);
    } else {
        verdict(it, told, rows);
        rows.gap();
        answers(it, told, dots, rows);
        rows.gap();
        figure(it, told, dots, rows);
        steps(it, rows);
        near(it, rows);
    }
    rows.heading("The question");
    put::question(it, None, rows);
}

/// The columns of a drawing beside words, and the least that the words have there.
const FIGURE: u16 = 36;
const BESIDE: u16 = 36;

/// The answers drawn in cells of text, for what the chart has no place.
fn figure(it: &Question, told: &Told, dots: DotSet, rows: &mut Rows<'_>) {
    let reply = other(it, told).map(|(reply, _)| reply);
    for row in it.figure(reply.as_ref(), usize::from(rows.room), dots == DotSet::Ascii) {
        let mut column = 0;
        let mut pieces = Vec::with_capacity(row.len());
        for Piece { text, ink } in row {
            let width = ink::width(&text);
            pieces.push(piece(column, text, part(ink)));
            column += width;
        }
        rows.row(pieces);
    }
}

fn part(ink: Ink) -> Part {
    match ink {
        Ink::Plain => Part::Plain,
        Ink::Quiet => Part::Quiet,
        Ink::Answer => Part::Answer,
        Ink::Yours => Part::Yours,
    }
}

/// Whether it is right, which mistake it looks like, and what is right.
fn verdict<'a>(it: &'a Question, told: &'a Told, rows: &mut Rows<'a>) {
    let Some(mark) = &told.mark else {
        return rows.words("Passed over.", Part::Warn);
    };
    // The right answer stands below, beside the reader's.
    let right = format!("It is {}.", it.told());
    let mut said = mark.said.iter().filter(|said| **said != right);
    let verdict = if mark.right { Part::Right } else { Part::Wrong };
    if let Some(first) = said.next() {
        rows.words(first.as_str(), verdict);
    }
    for sentence in said {
        rows.words(sentence.as_str(), Part::Plain);
    }
}

/// What was answered beside what is right, each with the signs by which it is found on the chart, if it is there.
fn answers<'a>(it: &'a Question, told: &'a Told, dots: DotSet, rows: &mut Rows<'a>) {
    let lead = |whose: Whose, word: &str, drawn: &[Shown], in_figure: bool| {
        let sign = match drawn.is_empty() && in_figure {
            true => format!(" {} ", whose.sign(dots)),
            false => sign(whose, drawn, dots),
        };
        Cow::Owned(format!("{sign} {word}  "))
    };
    if told.mark.is_some() {
        let in_figure = it.has_figure() && other(it, told).is_some();
        let lead = lead(Whose::Yours, "yours", &given(it, told), in_figure);
        rows.led_by((lead, Part::Yours), words(it, told), Part::Figure);
    }
    let lead = lead(Whose::Answer, "right", &it.drawn, it.has_figure());
    rows.led_by((lead, Part::Answer), it.told(), Part::Figure);
}

/// What an answer is found by on the chart: its sign, or where it has none its double line; blank where it is not drawn.
fn sign(whose: Whose, drawn: &[Shown], dots: DotSet) -> String {
    let has_point = drawn.iter().any(|it| matches!(it, Shown::Point { .. }));
    let (left, right) = whose.brackets();
    match whose {
        _ if drawn.is_empty() => "   ".to_owned(),
        Whose::Answer if !has_point && dots == DotSet::Ascii => "===".to_owned(),
        Whose::Answer if !has_point => "═══".to_owned(),
        _ => format!("{left}{}{right}", whose.sign(dots)),
    }
}

/// How the answer is got.
fn steps<'a>(it: &'a Question, rows: &mut Rows<'a>) {
    if it.steps.is_empty() {
        return;
    }
    rows.heading("How it is got");
    for (number, step) in (1..).zip(&it.steps) {
        rows.led(format!("{number} "), step.as_str(), Part::Plain);
    }
}

/// How near is near enough, and who says so.
fn near<'a>(it: &'a Question, rows: &mut Rows<'a>) {
    rows.gap();
    let near = match it.how_near() {
        Some(near) if it.choices.is_empty() => format!("Right {near}"),
        // Of what is chosen from one is right; how near counts for the cursor.
        Some(near) => format!("Right with the cursor {near}"),
        None => "The answer itself".to_owned(),
    };
    rows.words(format!("{near}: {}.", it.basis), Part::Quiet);
}
