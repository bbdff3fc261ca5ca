//! A set as text.

use chart::maker::Wishes;

use super::{Order, Part, Set, SetChart};

/// The text of a set on one line, which [`read`](super::read) reads as the same set: at most 32 kB, whatever the set asks.
///
/// ```
/// use practice::set::{FIRST, read, write};
/// let set = read(FIRST)?;
/// assert!(write(&set).len() < FIRST.len());
/// assert_eq!(read(&write(&set))?, set);
/// # Ok::<(), practice::set::SetError>(())
/// ```
#[must_use]
pub fn write(set: &Set) -> String {
    let Set { title, words, chart, sheet, seed, order, minutes, hints, parts } = set;
    let order = match order {
        Order::AsWritten => "AsWritten",
        Order::Mixed => "Mixed",
    };
    let parts: Vec<String> = parts.iter().map(part).collect();
    let mut fields = vec![
        "version: 1".to_owned(),
        format!("title: {title:?}"),
        format!("words: {words:?}"),
        format!("chart: {}", of(chart)),
        format!("seed: {seed}"),
        format!("order: {order}"),
        format!("hints: {hints}"),
    ];
    fields.extend(sheet.map(|sheet| format!("sheet: {}", sheet.name())));
    fields.extend(minutes.map(|minutes| format!("minutes: {minutes}")));
    fields.push(format!("parts: [{}]", parts.join(", ")));
    format!("({})", fields.join(", "))
}

fn of(chart: &SetChart) -> String {
    match chart {
        SetChart::BuiltIn => "BuiltIn".to_owned(),
        SetChart::Beside(path) => format!("File({path:?})"),
        SetChart::Made { seed, wishes } => {
            // A set names no title: the maker does.
            let Wishes { title: _, width_km, height_km, character, tide, difficulty } = wishes;
            format!(
                "Made(seed: {seed}, size: \"{width_km}x{height_km}\", character: {:?}, tide: \"{}m\", difficulty: {:?})",
                character.name(),
                tide.as_metres(),
                difficulty.name()
            )
        }
    }
}

fn part(Part { kinds, level, count, tolerance }: &Part) -> String {
    let kinds: Vec<String> = kinds.iter().map(|kind| format!("{:?}", kind.name())).collect();
    let (kinds, level) = (kinds.join(", "), level.number());
    let near = tolerance.map_or(String::new(), |near| format!(", tolerance: {}", near.exact()));
    format!("(kinds: [{kinds}], level: {level}, count: {count}{near})")
}
