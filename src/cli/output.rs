//! Where a command puts what it makes, and in which format.

mod pages;

#[cfg(test)]
mod tests;

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use anyhow::{Context, anyhow, bail};
use clap::Args;
use files::Overwrite;

use crate::{Exit, Harmless, Io};
pub(crate) use pages::PagesOut;

/// The name that stands for standard output where a file is expected.
const STANDARD_OUTPUT: &str = "-";

/// A format in which something leaves the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Format {
    Pdf,
    Svg,
    Png,
    Text,
    Markdown,
    Gpx,
    GeoJson,
    Csv,
}

impl Format {
    const ALL: [Format; 8] = [
        Format::Pdf,
        Format::Svg,
        Format::Png,
        Format::Text,
        Format::Markdown,
        Format::Gpx,
        Format::GeoJson,
        Format::Csv,
    ];

    /// The formats of what is set on pages, that of standard output first.
    pub(crate) const OF_PAGES: [Format; 5] =
        [Format::Text, Format::Pdf, Format::Svg, Format::Png, Format::Markdown];

    /// How names of such files end, the usual ending first; by these `--format` names it too.
    const fn endings(self) -> &'static [&'static str] {
        match self {
            Format::Pdf => &["pdf"],
            Format::Svg => &["svg"],
            Format::Png => &["png"],
            Format::Text => &["txt", "text"],
            Format::Markdown => &["md", "markdown"],
            Format::Gpx => &["gpx"],
            Format::GeoJson => &["geojson", "json"],
            Format::Csv => &["csv"],
        }
    }

    /// The format of this ending.
    fn named(ending: &str) -> Option<Format> {
        let is = |name: &&str| name.eq_ignore_ascii_case(ending);
        Format::ALL.into_iter().find(|format| format.endings().iter().any(is))
    }

    /// Whether it is bytes that are no text.
    const fn is_binary(self) -> bool {
        matches!(self, Format::Pdf | Format::Png)
    }

    /// Its usual ending.
    const fn ending(self) -> &'static str {
        match self.endings() {
            [first, ..] => first,
            [] => "",
        }
    }
}

/// Where to.
#[derive(Debug, Clone, Args)]
pub(crate) struct Output {
    /// The file to write, in the format that its ending names; - for standard output
    #[arg(short, long, value_name = "FILE", default_value = STANDARD_OUTPUT)]
    output: PathBuf,
    /// The format, where the name does not end in it
    #[arg(long, value_name = "FORMAT")]
    format: Option<String>,
    /// Replace the file if it is there
    #[arg(long)]
    force: bool,
}

impl Output {
    /// A place for what has one format alone.
    pub(crate) const fn to(output: PathBuf, force: bool) -> Output {
        Output { output, format: None, force }
    }

    /// The format that is asked for, which is one of these, the first of them where nothing says which. What can
    /// be refused before anything is made is refused here.
    ///
    /// # Errors
    /// Where the format is none of these, or is no text and would go to a terminal.
    pub(crate) fn format(&self, of: &[Format], io: &Io<'_>) -> anyhow::Result<Format> {
        let format = self.asked(of)?;
        if self.is_standard() && format.is_binary() && io.to_terminal {
            let ending = format.ending();
            bail!(
                "a {} is no text for a terminal; write it to a file, -o NAME.{ending}, or on to another program",
                ending.to_uppercase()
            );
        }
        Ok(format)
    }

    fn asked(&self, of: &[Format]) -> anyhow::Result<Format> {
        let known = |named: Option<Format>| named.filter(|format| of.contains(format));
        if let Some(name) = &self.format {
            return known(Format::named(name))
                .ok_or_else(|| anyhow!("--format {name} is none of these: {}", endings(of, "")));
        }
        if self.is_standard() {
            return of.first().copied().context("there is no format");
        }
        let ending = self.output.extension().and_then(OsStr::to_str);
        known(ending.and_then(Format::named)).ok_or_else(|| {
            let name = self.output.display();
            anyhow!("{name}: the name ends in none of {}; or say --format", endings(of, "."))
        })
    }

    /// Says before the work what would be refused after it: a folder that is not there, a file that is.
    pub(crate) fn ready(&self) -> anyhow::Result<()> {
        if self.is_standard() {
            Ok(())
        } else {
            Ok(files::can_save(&self.output, self.overwrite())?)
        }
    }

    /// Puts it there, whole or not at all, and says on standard error where.
    pub(crate) fn write(&self, bytes: &[u8], io: &mut Io<'_>) -> anyhow::Result<Exit> {
        if self.is_standard() {
            let written = io.output.write_all(bytes).and_then(|()| io.output.flush());
            written.context("standard output cannot be written")?;
        } else {
            files::save_bytes(&self.output, bytes, self.overwrite())?;
            said(&[&self.output], io);
        }
        Ok(Exit::Done)
    }

    /// Puts several there, `NAME-1.svg`, `NAME-2.svg`: all of them or none.
    fn write_several(&self, several: Vec<Vec<u8>>, io: &mut Io<'_>) -> anyhow::Result<Exit> {
        let count = several.len();
        let all: Vec<(PathBuf, Vec<u8>)> =
            several.into_iter().enumerate().map(|(n, it)| (self.numbered(n + 1), it)).collect();
        files::save_all(&all, self.overwrite())?;
        said(&all.iter().map(|(path, _)| path.as_path()).collect::<Vec<_>>(), io);
        let next = self.numbered(count + 1);
        if next.exists() {
            let next = Harmless(next.display().to_string());
            let _ = writeln!(io.errors, "{next} is from before, and no part of this");
        }
        Ok(Exit::Done)
    }

    /// `NAME-2.svg`.
    fn numbered(&self, number: usize) -> PathBuf {
        self.with(&number.to_string())
    }

    /// The name with something behind it, before its ending.
    fn with(&self, behind: &str) -> PathBuf {
        let stem = self.output.file_stem().unwrap_or_default().to_string_lossy();
        let ending = self.output.extension().map(|ending| format!(".{}", ending.to_string_lossy()));
        self.output.with_file_name(format!("{stem}-{behind}{}", ending.unwrap_or_default()))
    }

    /// A second file beside this one, `NAME-answers.pdf`.
    ///
    /// # Errors
    /// On standard output, which takes one file.
    pub(crate) fn beside(&self, behind: &str) -> anyhow::Result<Output> {
        if self.is_standard() {
            bail!(
                "standard output takes one file, and the {behind} apart are a second; name a file with -o"
            );
        }
        Ok(Output { output: self.with(behind), ..self.clone() })
    }

    fn is_standard(&self) -> bool {
        self.output == Path::new(STANDARD_OUTPUT)
    }

    fn overwrite(&self) -> Overwrite {
        if self.force { Overwrite::Yes } else { Overwrite::No }
    }
}

/// `.pdf, .svg, .txt`.
fn endings(of: &[Format], dot: &str) -> String {
    let endings: Vec<String> = of.iter().map(|it| format!("{dot}{}", it.ending())).collect();
    endings.join(", ")
}

/// Says where it is. Where standard error is gone there is nobody to tell.
fn said(paths: &[&Path], io: &mut Io<'_>) {
    let paths: Vec<String> = paths.iter().map(|path| path.display().to_string()).collect();
    let _ = writeln!(io.errors, "written: {}", Harmless(paths.join(", ")));
}
