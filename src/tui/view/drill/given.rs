//! The reader's own answer, as it is drawn on the chart beside the right one.

use practice::{MistakeKind, Question, Reply, Shown};

use crate::state::Told;

/// What is drawn of the answer that was given; empty where it cannot be drawn, or is the right one itself.
pub(crate) fn given(it: &Question, told: &Told) -> Vec<Shown> {
    let drawn = other(it, told).map(|(reply, named)| it.drawn_reply(&reply, named));
    drawn.unwrap_or_default()
}

/// The answer that was given, with the mistake that is named of it; nothing where it is the right one itself.
pub(super) fn other(it: &Question, told: &Told) -> Option<(Reply, Option<MistakeKind>)> {
    let mark = told.mark.as_ref().filter(|mark| !mark.right || mark.off.is_some())?;
    Some((reply(it, told)?, mark.mistake))
}

/// The answer that was given, in words as one reads it: of a choice what it says.
pub(super) fn words<'a>(it: &'a Question, told: &'a Told) -> &'a str {
    let chosen = match reply(it, told) {
        Some(Reply::Choice(index)) => it.choices.get(index),
        Some(Reply::At(at)) => it.choices.iter().find(|choice| choice.at == Some(at)),
        _ => None,
    };
    match (chosen, told.reply.as_str()) {
        (Some(choice), _) => &choice.text,
        (None, "") => "where the cursor was",
        (None, reply) => reply,
    }
}

fn reply(it: &Question, told: &Told) -> Option<Reply> {
    match told.at {
        Some(at) => Some(Reply::At(at)),
        None => it.read(&told.reply).ok(),
    }
}
