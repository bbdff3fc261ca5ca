//! A real shore becomes a chart.

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use ::chart::format;
use ::chart::geojson::{BadRings, Import};
use anyhow::{Context, bail};
use clap::Args;
use files::Source;

use super::{overwrite, put};
use crate::bar::Bar;
use crate::reckon::grid_named;
use crate::{Exit, Io};

/// What to import, and where to.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The file of polygons or lines: GeoJSON, FlatGeobuf or a shore file; - for GeoJSON on
    /// standard input
    file: PathBuf,
    /// The grid of a chart: EPSG:27700, UTM:30N, or chart:FILE for another chart's own
    #[arg(long)]
    grid: Option<String>,
    /// The file to write: a chart; a whole shore, of any size, where its name ends in .shore or
    /// .fgb (FlatGeobuf); - for a chart on standard output
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
    /// The chart's title; the file's name if none is given
    #[arg(long)]
    title: Option<String>,
    /// Where the shore is from and under which terms; the file's name if none is given
    #[arg(long)]
    source: Option<String>,
    /// Leave out rings that are not closed or cross themselves, and count them
    #[arg(long)]
    skip_bad: bool,
    /// Cut rings where they cross themselves, and drop the twist
    #[arg(long, conflicts_with = "skip_bad")]
    mend: bool,
    /// Replace the file if it is there
    #[arg(long)]
    force: bool,
    /// Point to the shore file, beside the chart or below it, instead of holding the shore
    #[arg(long, conflicts_with_all = ["skip_bad", "mend"])]
    beside: bool,
}

pub(super) fn run(args: &ImportArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    if is_whole_shore(&args.output) {
        return whole_shore(args, io);
    }
    let Some(grid) = &args.grid else {
        bail!(
            "a chart lies on a grid; name it: --grid UTM:30N, or write a whole shore: -o NAME.shore"
        );
    };
    let grid = grid_named(grid)?;
    let beside = args.beside.then(|| path_from_chart(args)).transpose()?;
    let bad = match (args.mend, args.skip_bad) {
        (true, _) => BadRings::Mend,
        (false, true) => BadRings::LeaveOut,
        (false, false) => BadRings::Refuse,
    };
    let mut bar = Bar::new(io.terminal);
    let source = Source::or_input(&args.file, &mut io.input);
    let import = files::import_shore(source, &grid, bad, |read, size| {
        bar.show(read, size);
        ControlFlow::Continue(())
    });
    bar.clear();
    let import = import?;
    say_what_is_missing(&import, io)?;
    let name = args.file.file_stem().map(|stem| stem.to_string_lossy());
    let name = name.as_deref().filter(|name| *name != "-").unwrap_or("Shore");
    let title = args.title.as_deref().unwrap_or(name);
    let from = format!("Imported from {name}");
    let chart = import.into_chart(grid, title, args.source.as_deref().unwrap_or(&from));
    if let Some(fault) = ::chart::check::faults(&chart).into_iter().next() {
        bail!("no chart can be made of it: {}", fault.fault);
    }
    let text = match beside {
        Some(path) => format::write_with_shore_beside(&chart, &path),
        None => format::write(&chart),
    };
    put(&args.output, &text, overwrite(args.force), io)
}

/// Whether a whole shore is to be written, which needs no grid of its own.
fn is_whole_shore(output: &Path) -> bool {
    let named = |ending: &str| output.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending));
    named(::chart::coast::file::ENDING) || named("fgb")
}

/// A whole shore from file to file. An interrupt ends it between two pieces of work, so that what
/// was begun is taken away.
fn whole_shore(args: &ImportArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    if args.grid.is_some() || args.beside || args.mend || args.skip_bad {
        bail!(
            "a whole shore is taken as it is given, on its own plane (EPSG:3395): \
             leave out --grid, --beside, --mend and --skip-bad"
        );
    }
    if args.output.exists() && !args.force {
        bail!("{} is there already; --force overwrites it", args.output.display());
    }
    let stop = Arc::new(AtomicBool::new(false));
    let handler = signal_hook::flag::register(signal_hook::consts::SIGINT, stop.clone())?;
    let go_on = || match stop.load(Ordering::Relaxed) {
        true => ControlFlow::Break(()),
        false => ControlFlow::Continue(()),
    };
    let mut bar = Bar::new(io.terminal);
    let imported = files::import_coast(&args.file, &mut |read, size| {
        bar.show(read, size);
        go_on()
    });
    bar.clear();
    let saved = imported.map_err(anyhow::Error::from).and_then(|mut imported| {
        let about = &mut imported.about;
        about.title = args.title.clone().unwrap_or_else(|| about.title.clone());
        about.source = args.source.clone().unwrap_or_else(|| about.source.clone());
        files::save_coast(&args.output, &imported, overwrite(args.force), &mut || go_on())?;
        Ok(imported)
    });
    signal_hook::low_level::unregister(handler);
    let imported = saved?;
    let told = imported.about.told.to_string();
    if !told.is_empty() {
        writeln!(io.errors, "{told}")?;
    }
    let coast = imported.shores.full();
    writeln!(io.errors, "{} lines, {} vertices", coast.lines().len(), coast.vertices())?;
    Ok(Exit::Done)
}

/// Says on standard error what of the file is not in the chart, or not as one might think.
fn say_what_is_missing(import: &Import, io: &mut Io<'_>) -> anyhow::Result<()> {
    let left_out = import.left_out.to_string();
    if left_out != "nothing" {
        writeln!(io.errors, "left out: {left_out}")?;
    }
    match import.left_out.mended {
        0 => {}
        1 => writeln!(io.errors, "1 ring crossed itself and was cut there")?,
        many => writeln!(io.errors, "{many} rings crossed themselves and were cut there")?,
    }
    match import.left_out.closed_lines {
        0 => {}
        1 => writeln!(io.errors, "1 closed line encloses nothing; a polygon would")?,
        many => writeln!(io.errors, "{many} closed lines enclose nothing; polygons would")?,
    }
    Ok(())
}

/// The way from the folder of the chart to the shore file, as the chart writes it.
fn path_from_chart(args: &ImportArgs) -> anyhow::Result<String> {
    if args.output == Path::new("-") || args.file == Path::new("-") {
        bail!("a chart can point to its shore only from file to file; give both by name");
    }
    let folder = match args.output.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let full = |path: &Path| {
        path.canonicalize().with_context(|| format!("{} cannot be found", path.display()))
    };
    let (folder, file) = (full(folder)?, full(&args.file)?);
    let Ok(below) = file.strip_prefix(&folder) else {
        bail!(
            "{} is neither beside the chart nor below it; move it there, or leave out --beside",
            args.file.display()
        );
    };
    let parts: Option<Vec<&str>> =
        below.components().map(|part| part.as_os_str().to_str()).collect();
    Ok(parts.context("the shore file's name is not text; rename it")?.join("/"))
}
