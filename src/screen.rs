//! From arguments to the screen, and from a screen to a file.

use std::io::{self, Write};

use cli::{Colour, Dots, Look, Open, ScreenArgs, Section};
use files::Overwrite;
use tui::glyphs::DotSet;
use tui::theme::{Colours, Tone};
use tui::{Options, Shot, action};

/// The name that stands for standard output where a file is expected.
const STANDARD_OUTPUT: &str = "-";

/// Opens the screen on the terminal.
pub(crate) fn open(open: Open, look: Look) -> anyhow::Result<()> {
    tui::run(&Options {
        chart: open.chart,
        route: open.route,
        set: open.set,
        key_file: look.keys_from,
        colours: colours(look.colour),
        tone: tone(look.paper),
        dots: look.dots.map(dots),
    })
}

/// Draws the screen into a file, or as text on standard output.
pub(crate) fn draw(args: &ScreenArgs) -> anyhow::Result<()> {
    let ScreenArgs { open, look, .. } = args;
    let shot = Shot {
        chart: open.chart.clone(),
        route: open.route.clone(),
        set: open.set.clone(),
        results: args.results.clone(),
        key_file: look.keys_from.clone(),
        size: (args.size.columns.get(), args.size.rows.get()),
        keys: args.keys.clone(),
        colours: colours(look.colour).unwrap_or_default(),
        tone: tone(look.paper),
        dots: look.dots.map(dots).unwrap_or_default(),
    };
    let is_picture = args.output.extension().is_some_and(|end| end.eq_ignore_ascii_case("svg"));
    let text = if is_picture { shot.svg()? } else { shot.text()? };
    if args.output.as_os_str() == STANDARD_OUTPUT {
        io::stdout().write_all(text.as_bytes())?;
        return Ok(());
    }
    let overwrite = if args.force { Overwrite::Yes } else { Overwrite::No };
    Ok(files::save_text(&args.output, &text, overwrite)?)
}

/// What the manual page says of the screen.
pub(crate) fn manual() -> Vec<Section> {
    action::sections().into_iter().map(|(heading, entries)| Section { heading, entries }).collect()
}

fn colours(colour: Colour) -> Option<Colours> {
    match colour {
        Colour::Auto => None,
        Colour::Never => Some(Colours::None),
        Colour::Sixteen => Some(Colours::Sixteen),
        Colour::Indexed => Some(Colours::Indexed),
        Colour::True => Some(Colours::True),
    }
}

fn tone(paper: bool) -> Tone {
    if paper { Tone::Paper } else { Tone::Dark }
}

fn dots(dots: Dots) -> DotSet {
    match dots {
        Dots::Braille => DotSet::Braille,
        Dots::Octant => DotSet::Octant,
        Dots::Sextant => DotSet::Sextant,
        Dots::Quadrant => DotSet::Quadrant,
        Dots::HalfBlock => DotSet::HalfBlock,
        Dots::Dot => DotSet::Dot,
        Dots::Ascii => DotSet::Ascii,
    }
}
