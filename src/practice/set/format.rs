//! A set from the text of a file: RON, versioned.
//!
//! [`FIRST`](super::FIRST) is such a file. The text is read as a whole first, then each value is held against its bounds;
//! what is wrong is traced back through the text to the place where it stands (`chart::format::line_and_column`).

use chart::clean::{NAME, NOTE, clean};
use chart::format::{Step, line_and_column};
use chart::maker::{TideRange, Wishes, size};
use plan::format::{in_words, is_over};
use ron::error::{Error as Ron, Position, SpannedError};
use serde::{Deserialize, Deserializer};

use super::{Measure, Near, Order, Part, Set, SetChart};
use crate::{Kind, Level, Sheet};

/// The version of the file that this program reads.
const VERSION: i64 = 1;

/// What is wrong with a set's file, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {message}")]
pub struct SetError {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
    /// What is wrong; what would be right.
    pub message: String,
}

/// The set that the text of a file describes, its words cleaned.
///
/// # Errors
/// [`SetError`] when the text is not RON, is of another version, lacks a field, has one that is not known, or has a value
/// out of its bounds.
pub fn read(text: &str) -> Result<Set, SetError> {
    let file: SetFile = ron::from_str(text).map_err(|error| described(&error, text))?;
    set(file).map_err(|Wrong { way, message }| {
        let (line, column) = line_and_column(text, &way);
        SetError { line, column, message: clean(&message, NOTE) }
    })
}

#[derive(Deserialize)]
#[serde(rename = "Set", deny_unknown_fields)]
struct SetFile {
    version: i64,
    title: String,
    #[serde(default)]
    words: String,
    #[serde(default)]
    chart: ChartFile,
    #[serde(default, deserialize_with = "given")]
    sheet: Option<SheetFile>,
    #[serde(default)]
    seed: u64,
    #[serde(default)]
    order: OrderFile,
    #[serde(default, deserialize_with = "given")]
    minutes: Option<i64>,
    #[serde(default = "yes")]
    hints: bool,
    parts: Vec<PartFile>,
}

/// A value that may be left out, written without `Some`.
fn given<'de, D: Deserializer<'de>, T: Deserialize<'de>>(d: D) -> Result<Option<T>, D::Error> {
    T::deserialize(d).map(Some)
}

fn yes() -> bool {
    true
}

#[derive(Deserialize, Default)]
#[serde(rename = "Chart", deny_unknown_fields)]
enum ChartFile {
    #[default]
    BuiltIn,
    Made {
        seed: u64,
        #[serde(default, deserialize_with = "given")]
        character: Option<String>,
        #[serde(default, deserialize_with = "given")]
        size: Option<String>,
        #[serde(default, deserialize_with = "given")]
        tide: Option<String>,
        #[serde(default, deserialize_with = "given")]
        difficulty: Option<String>,
    },
    File(String),
}

#[derive(Deserialize)]
#[serde(rename = "Sheet")]
enum SheetFile {
    A4,
    A3,
}

#[derive(Deserialize, Default)]
#[serde(rename = "Order")]
enum OrderFile {
    #[default]
    AsWritten,
    Mixed,
}

#[derive(Deserialize)]
#[serde(rename = "Part", deny_unknown_fields)]
struct PartFile {
    kinds: Vec<String>,
    #[serde(default = "first")]
    level: i64,
    count: i64,
    #[serde(default, deserialize_with = "given")]
    tolerance: Option<NearFile>,
}

fn first() -> i64 {
    1
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename = "Tolerance")]
enum NearFile {
    Metres(f64),
    Kilometres(f64),
    Miles(f64),
    Degrees(f64),
    ArcMinutes(f64),
    Minutes(f64),
    Knots(f64),
    Percent(f64),
}

/// What is wrong with a value, and the way to it.
struct Wrong {
    way: Vec<Step>,
    message: String,
}

type Checked<T> = Result<T, Wrong>;

fn wrong<T>(way: &[Step], message: impl ToString) -> Checked<T> {
    Err(Wrong { way: way.to_vec(), message: message.to_string() })
}

fn set(file: SetFile) -> Checked<Set> {
    if file.version != VERSION {
        let other = file.version;
        return wrong(
            &[Step::Field("version")],
            format!("version {other} is not known here; this program reads version {VERSION}"),
        );
    }
    let title = line("title", &file.title, NAME)?;
    if !title.starts_with(char::is_alphanumeric) {
        return wrong(
            &[Step::Field("title")],
            "a title begins with a letter or a figure; results are named by it",
        );
    }
    let minutes =
        |minutes| within("minutes", minutes, Set::MOST_MINUTES, &[Step::Field("minutes")]);
    let minutes = file.minutes.map(minutes).transpose()?;
    Ok(Set {
        title,
        words: line("words", &file.words, NOTE)?,
        chart: chart(file.chart)?,
        sheet: file.sheet.map(|sheet| match sheet {
            SheetFile::A4 => Sheet::A4,
            SheetFile::A3 => Sheet::A3,
        }),
        seed: file.seed,
        order: match file.order {
            OrderFile::AsWritten => Order::AsWritten,
            OrderFile::Mixed => Order::Mixed,
        },
        minutes,
        hints: file.hints,
        parts: parts(file.parts)?,
    })
}

/// A text of at most so many characters, cleaned.
fn line(field: &'static str, text: &str, most: usize) -> Checked<String> {
    match text.trim().chars().count() {
        count if count > most => wrong(
            &[Step::Field(field)],
            format!("the {field} has {count} characters; {most} is the most"),
        ),
        _ => Ok(clean(text, most)),
    }
}

/// A number from one to the most.
fn within(what: &str, number: i64, most: u16, way: &[Step]) -> Checked<u16> {
    match u16::try_from(number) {
        Ok(number @ 1..) if number <= most => Ok(number),
        _ => wrong(way, format!("{what}: {number} is not within 1 to {most}")),
    }
}

fn chart(file: ChartFile) -> Checked<SetChart> {
    let (seed, character, extent, tide, difficulty) = match file {
        ChartFile::BuiltIn => return Ok(SetChart::BuiltIn),
        ChartFile::File(path) => return beside(path),
        ChartFile::Made { seed, character, size, tide, difficulty } => {
            (seed, character, size, tide, difficulty)
        }
    };
    let usual = Wishes::default();
    let (width_km, height_km) =
        made("size", extent, size)?.unwrap_or((usual.width_km, usual.height_km));
    let wishes = Wishes {
        width_km,
        height_km,
        character: made("character", character, str::parse)?.unwrap_or(usual.character),
        tide: made("tide", tide, str::parse::<TideRange>)?.unwrap_or(usual.tide),
        difficulty: made("difficulty", difficulty, str::parse)?.unwrap_or(usual.difficulty),
        ..usual
    };
    Ok(SetChart::Made { seed, wishes })
}

/// A wish, if there is one.
fn made<T, E: ToString>(
    field: &'static str,
    written: Option<String>,
    read: impl Fn(&str) -> Result<T, E>,
) -> Checked<Option<T>> {
    let read = |text: String| {
        read(&text)
            .or_else(|error| wrong(&[Step::Field("chart"), Step::Field(field)], error.to_string()))
    };
    written.map(read).transpose()
}

/// A path that cannot lead out of the set's folder.
fn beside(path: String) -> Checked<SetChart> {
    let leads_out = path.is_empty()
        || path.contains(['\\', ':'])
        || path.split('/').any(|part| part.is_empty() || part == "." || part == "..");
    if leads_out || clean(&path, NOTE) != path {
        let message = format!(
            "the chart's file `{path}` is not a plain path from the set's folder; right are `bay.ron` or `charts/bay.ron`"
        );
        return wrong(&[Step::Field("chart"), Step::Element(0)], message);
    }
    Ok(SetChart::Beside(path))
}

fn parts(files: Vec<PartFile>) -> Checked<Vec<Part>> {
    let all = Step::Field("parts");
    if files.is_empty() {
        return wrong(&[all], "there is no part; a set has one or more");
    }
    let mut parts: Vec<Part> = Vec::new();
    let mut count = 0;
    for (index, file) in files.into_iter().enumerate() {
        if index == Set::MOST_PARTS {
            let message = format!("there are more than {} parts, the most", Set::MOST_PARTS);
            return wrong(&[all, Step::Element(index)], message);
        }
        let part = part(file, &[all, Step::Element(index)])?;
        count += part.count;
        if count > Set::MOST {
            let message = format!(
                "with these there are {count} questions; {} is the most of a set",
                Set::MOST
            );
            return wrong(&[all, Step::Element(index), Step::Field("count")], message);
        }
        parts.push(part);
    }
    Ok(parts)
}

fn part(file: PartFile, way: &[Step]) -> Checked<Part> {
    let into = |steps: &[Step]| [way, steps].concat();
    if file.kinds.is_empty() {
        return wrong(
            &into(&[Step::Field("kinds")]),
            "there is no kind of exercise; name one or more",
        );
    }
    let mut kinds: Vec<Kind> = Vec::new();
    for (index, name) in file.kinds.iter().enumerate() {
        let here = into(&[Step::Field("kinds"), Step::Element(index)]);
        match name.parse::<Kind>() {
            Err(error) => return wrong(&here, error),
            Ok(kind) if kinds.contains(&kind) => {
                return wrong(&here, format!("“{kind}” is named twice; once would be right"));
            }
            Ok(kind) => kinds.push(kind),
        }
    }
    let at_level = into(&[Step::Field("level")]);
    let level = u8::try_from(file.level).ok().and_then(|level| Level::from_number(level).ok());
    let Some(level) = level else {
        return wrong(&at_level, format!("{} is no level; it is 1, 2 or 3", file.level));
    };
    let count = within("count", file.count, Set::MOST, &into(&[Step::Field("count")]))?;
    let tolerance = file.tolerance.map(|near| {
        let (measure, amount) = near.parts();
        let near = Near::new(measure, amount, &kinds);
        near.or_else(|error| wrong(&into(&[Step::Field("tolerance")]), error))
    });
    let tolerance = tolerance.transpose()?;
    Ok(Part { kinds, level, count, tolerance })
}

impl NearFile {
    const fn parts(self) -> (Measure, f64) {
        match self {
            NearFile::Metres(amount) => (Measure::Metres, amount),
            NearFile::Kilometres(amount) => (Measure::Kilometres, amount),
            NearFile::Miles(amount) => (Measure::Miles, amount),
            NearFile::Degrees(amount) => (Measure::Degrees, amount),
            NearFile::ArcMinutes(amount) => (Measure::ArcMinutes, amount),
            NearFile::Minutes(amount) => (Measure::Minutes, amount),
            NearFile::Knots(amount) => (Measure::Knots, amount),
            NearFile::Percent(amount) => (Measure::Percent, amount),
        }
    }
}

fn described(error: &SpannedError, text: &str) -> SetError {
    let (start, end) = (error.span.start, error.span.end);
    let closed = !is_over(text, end.line);
    let message = match &error.code {
        Ron::ExpectedStructLike | Ron::ExpectedNamedStructLike(_) if begins_wrongly(text, end) => {
            "a set begins with `(`, and each of its parts too".into()
        }
        Ron::IntegerOutOfBounds => {
            "this number has no room here; a seed is a whole number from 0".into()
        }
        Ron::ExpectedBoolean if closed => "here stands `true` or `false`".into(),
        Ron::ExpectedComma if closed => {
            "a comma would be right here; counts, levels and minutes are whole numbers".into()
        }
        Ron::ExpectedIdentifier | Ron::SuggestRawIdentifier(_) if closed => {
            "a word would be right here; a chart is BuiltIn, Made(seed: 7) or File(\"bay.ron\"), a sheet A4 or A3, an order \
             AsWritten or Mixed, a tolerance such as Degrees(3)"
                .into()
        }
        _ => in_words(error, text, "set"),
    };
    SetError { line: start.line, column: start.col, message: clean(&message, NOTE) }
}

/// Whether something stands where a `(` would be right, rather than nothing any more.
fn begins_wrongly(text: &str, at: Position) -> bool {
    let mut lines = text.lines().skip(at.line.saturating_sub(1));
    let first = lines.next().unwrap_or_default().chars().skip(at.col.saturating_sub(1)).collect();
    let rest: String = lines.fold(first, |rest, line| rest + line);
    !rest.trim().is_empty()
}

/// Where in a set's text the kinds of the part of this number, from 0, stand: line and column, from one.
#[must_use]
pub fn place_of_part(text: &str, part: usize) -> (usize, usize) {
    line_and_column(text, &[Step::Field("parts"), Step::Element(part), Step::Field("kinds")])
}

/// Where in a set's text the file of its chart stands.
#[must_use]
pub fn place_of_chart(text: &str) -> (usize, usize) {
    line_and_column(text, &[Step::Field("chart"), Step::Element(0)])
}
