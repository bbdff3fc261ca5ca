//! The passage of a route, under the table of its legs.

use std::io::{self, Write};

use plan::table::{PassageRow, PassageTotalRow, passage, passage_total};

use super::line;
use crate::day::Through;
use crate::page::paragraph;

/// The table of the passage: a row a leg, with what is to be said of it below.
pub(super) fn write(through: &Through, to: &mut dyn Write) -> io::Result<()> {
    let Through { course, passage: made, .. } = through;
    line(to, "Through the stream:")?;
    line(to, " leg  steer  ground  set and drift  mostly            time     leave  arrive")?;
    for row in passage(course, made) {
        leg(&row, to)?;
    }
    total(&passage_total(course, made), to)
}

fn leg(row: &PassageRow, to: &mut dyn Write) -> io::Result<()> {
    let PassageRow { number, steer, ground_speed, set, drift, word, word_time, .. } = row;
    let PassageRow { time, departs, arrives, .. } = row;
    if departs.is_empty() {
        return line(to, &format!(" {number:>3}  not known"));
    }
    let mostly = format!("{word} {word_time}");
    line(
        to,
        &format!(
            " {number:>3}  {steer:5}  {ground_speed:6}  {set:5} {drift:7}  {mostly:14}  {time:>7}  \
             {departs:5}  {arrives}"
        ),
    )?;
    for said in beside(row) {
        paragraph("      ", &said, to)?;
    }
    Ok(())
}

/// What is said of a leg besides its figures.
fn beside(row: &PassageRow) -> Vec<String> {
    let PassageRow { first, last, greatest, greatest_at, wait, wait_for, off_line, .. } = row;
    let PassageRow { no_data, races, gates, .. } = row;
    let mut said = Vec::new();
    if !wait.is_empty() {
        said.push(format!("Waits {wait} before it for {wait_for}."));
    }
    if !off_line.is_empty() {
        said.push(format!("On one heading; farthest off the line {off_line} of it."));
    } else if first != last {
        said.push(format!("Steers {first} at first, {last} at last."));
    }
    if !greatest.is_empty() {
        said.push(format!("The stream runs {greatest} at most, at {greatest_at}."));
    }
    said.extend(races.iter().map(|race| format!("Race: {race}.")));
    said.extend(gates.iter().map(|gate| format!("Gate: {gate}.")));
    if !no_data.is_empty() {
        said.push(format!("Nothing is known of the stream on {no_data} of it."));
    }
    said
}

fn total(row: &PassageTotalRow, to: &mut dyn Write) -> io::Result<()> {
    let PassageTotalRow { time, under_way, waits, with, against, across, slack, no_data, .. } = row;
    if !time.is_empty() {
        line(to, &format!("{:50}{under_way:>7}  under way", " whole route"))?;
        if time != under_way {
            line(to, &format!("{:50}{time:>7}  with stops and waits", ""))?;
        }
    }
    if under_way == "0 min" {
        return Ok(());
    }
    let mut parts = vec![
        format!("with the stream {with}"),
        format!("against {against}"),
        format!("across {across}"),
        format!("slack {slack}"),
    ];
    if !no_data.is_empty() {
        parts.push(format!("no data {no_data}"));
    }
    if !waits.is_empty() {
        parts.push(format!("waits {waits}"));
    }
    paragraph("      ", &format!("Time {}.", parts.join(", ")), to)
}
