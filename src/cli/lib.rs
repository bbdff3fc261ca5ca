//! Strandline's command line: the definition of all its arguments, and the commands that print.
//!
//! Every command reads from and writes to an [`Io`], so that a test can hand it bytes and read
//! bytes. Errors go to standard error as `file:line:column: what is wrong; what would be right`.
//! What opens the screen or draws it is parsed here and carried out elsewhere: this crate knows
//! of no screen.

mod args;
mod bar;
mod card;
mod chart;
mod coast;
mod compare;
mod day;
mod depart;
mod drill;
mod export;
mod import;
mod manual;
mod output;
mod page;
mod picture;
mod place;
mod reckon;
mod route;
mod sheet;
mod stream;
mod tide;
mod when;
mod worksheet;

use std::fmt;
use std::io::{self, BufRead, Write};
use std::process::ExitCode;

use files::{FileError, Why};

pub use args::{Cli, Colour, Command, Dots, Look, Open, ScreenArgs, Size};
pub use card::CardArgs;
pub use chart::{ChartCommand, ImportArgs as ShoreImportArgs};
pub use coast::CoastArgs;
pub use compare::CompareArgs;
pub use depart::DepartArgs;
pub use drill::DrillArgs;
pub use export::ExportArgs;
pub use import::ImportArgs;
pub use manual::Section;
pub use picture::PictureArgs;
pub use reckon::ReckonArgs;
pub use route::{RouteCommand, ShowArgs};
pub use sheet::SheetArgs;
pub use stream::StreamArgs;
pub use tide::TideArgs;
pub use worksheet::WorksheetArgs;

/// What a command reads and writes.
pub struct Io<'a> {
    /// Standard input.
    pub input: &'a mut dyn BufRead,
    /// Standard output.
    pub output: &'a mut dyn Write,
    /// Standard error.
    pub errors: &'a mut dyn Write,
    /// Whether standard error is a terminal: progress and coloured errors are for one only.
    pub terminal: bool,
    /// Whether standard output is a terminal: what is no text does not go there.
    pub to_terminal: bool,
    /// What the manual page says of the screen, such as its keys: the screen's to know.
    pub manual: &'a [Section],
}

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// It is done; or the answer is yes.
    Done,
    /// The answer is no, say of a check that found something.
    No,
    /// Bad input or usage.
    Bad,
}

/// 0, 1 and 2.
impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> ExitCode {
        ExitCode::from(match exit {
            Exit::Done => 0,
            Exit::No => 1,
            Exit::Bad => 2,
        })
    }
}

/// Carries out a command that needs no screen, and says on standard error what went wrong.
pub fn run(command: Command, io: &mut Io<'_>) -> Exit {
    let result = execute(command, io);
    // What was answered before something went wrong is out before that is said.
    let flushed = io.output.flush().map_err(anyhow::Error::from);
    let result = result.and_then(|exit| flushed.map(|()| exit));
    result.unwrap_or_else(|error| report(&error, io.errors))
}

fn execute(command: Command, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    match command {
        Command::Chart(command) => chart::run(command, io),
        Command::Route(command) => route::run(command, io),
        Command::Coast(args) => coast::run(args, io),
        Command::Tide(args) => tide::run(args, io),
        Command::Stream(args) => stream::run(args, io),
        Command::Depart(args) => depart::run(args, io),
        Command::Card(args) => card::run(args, io),
        Command::Sheet(args) => sheet::run(args, io),
        Command::Worksheet(args) => worksheet::run(args, io),
        Command::Picture(args) => picture::run(args, io),
        Command::Export(args) => export::run(args, io),
        Command::Import(args) => import::run(args, io),
        Command::Compare(args) => compare::run(args, io),
        Command::Drill(args) => drill::run(args, io),
        Command::Reckon(args) => reckon::run(args, io),
        Command::Completions { shell } => manual::completions(shell, io.output),
        Command::Manual => manual::page(io.manual, io.output),
        Command::Screen(_) => anyhow::bail!("this command is drawn, not printed"),
    }
}

/// Says what went wrong, and gives the exit that belongs to it. That the reader of the output
/// has gone, as `head` does when it has seen enough, is no failure.
pub fn report(error: &anyhow::Error, errors: &mut dyn Write) -> Exit {
    if error.chain().any(|cause| io_kind(cause) == Some(io::ErrorKind::BrokenPipe)) {
        return Exit::Done;
    }
    // Where standard error is gone too, there is nobody to tell.
    let _ = writeln!(errors, "{}", Harmless(format!("{error:#}")));
    Exit::Bad
}

/// What went wrong with input or output, also where the writers of JSON and CSV wrap it without naming it
/// as their cause.
fn io_kind(cause: &(dyn std::error::Error + 'static)) -> Option<io::ErrorKind> {
    if let Some(json) = cause.downcast_ref::<serde_json::Error>() {
        return json.io_error_kind();
    }
    if let Some(FileError { why: Why::Unwritten(io), .. }) = cause.downcast_ref::<FileError>() {
        return Some(io.kind());
    }
    let io = match cause.downcast_ref::<csv::Error>().map(csv::Error::kind) {
        Some(csv::ErrorKind::Io(io)) => Some(io),
        _ => cause.downcast_ref::<io::Error>(),
    };
    io.map(io::Error::kind)
}

/// Text that may hold anything, with what would command a terminal taken out.
struct Harmless(String);

impl fmt::Display for Harmless {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (number, line) in self.0.lines().enumerate() {
            let newline = if number == 0 { "" } else { "\n" };
            write!(f, "{newline}{}", ::chart::clean::clean(line, usize::MAX))?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;
