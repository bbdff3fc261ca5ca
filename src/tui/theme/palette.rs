//! The colours. Ground follows the habit of printed charts (IHO S-4): land buff, drying ground
//! green, shallow water blue and bluer as it shoals, deep water plain.

use super::{Ground, Theme, Tone};
use ratatui::style::{Color, Modifier};

/// The parts that ink plays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// High water line.
    Shore,
    /// Edge of drying ground.
    DryingEdge,
    /// Grid lines on the chart.
    Grid,
    /// Letters of grid squares on the chart.
    Letters,
    /// Names of places ashore.
    Name,
    /// Names of settlements.
    Settlement,
    /// Names of waters.
    WaterName,
    /// Marks to take bearings of.
    Mark,
    /// Landings.
    Landing,
    /// Hazards.
    Hazard,
    /// Where a stream breaks.
    Race,
    /// A stream that hardly runs.
    StreamSlack,
    /// A weak stream, and the station of one.
    Stream,
    /// A stream that counts.
    StreamStrong,
    /// Legs of the route.
    Route,
    /// The chosen leg.
    RouteChosen,
    /// Numbers and names of waypoints.
    Waypoint,
    /// The leg under the pencil.
    Pencil,
    /// The line traced along a shore.
    Thread,
    /// What a question of practice shows on the chart.
    Asked,
    /// Its right answer there.
    Answer,
    /// The reader's own answer there.
    Yours,
    /// The cursor.
    Cursor,
    /// Frames and rules.
    Frame,
    /// The figures in the chart's margin.
    FrameNumber,
    /// Plain words.
    Text,
    /// Figures to read.
    Figure,
    /// Words that stand back.
    Dim,
    /// Headings of panes.
    Heading,
    /// Keys in hints and help.
    Key,
    /// A word of caution.
    Warn,
    /// What is wrong.
    Error,
}

impl Role {
    /// All roles.
    pub const ALL: [Role; 32] = [
        Role::Shore,
        Role::DryingEdge,
        Role::Grid,
        Role::Letters,
        Role::Name,
        Role::Settlement,
        Role::WaterName,
        Role::Mark,
        Role::Landing,
        Role::Hazard,
        Role::Race,
        Role::StreamSlack,
        Role::Stream,
        Role::StreamStrong,
        Role::Route,
        Role::RouteChosen,
        Role::Waypoint,
        Role::Pencil,
        Role::Thread,
        Role::Asked,
        Role::Answer,
        Role::Yours,
        Role::Cursor,
        Role::Frame,
        Role::FrameNumber,
        Role::Text,
        Role::Figure,
        Role::Dim,
        Role::Heading,
        Role::Key,
        Role::Warn,
        Role::Error,
    ];
}

/// How a role looks in one tone.
pub(super) struct Look {
    /// Its colour, `0xRRGGBB`.
    pub(super) ink: u32,
    /// Its colour of the terminal's sixteen.
    pub(super) sixteen: Color,
    /// Its weight.
    pub(super) weight: Modifier,
    /// What is added to the weight where there is no colour.
    pub(super) weight_alone: Modifier,
}

/// How a kind of ground looks in one tone.
pub(super) struct GroundLook {
    pub(super) tint: u32,
    pub(super) indexed: u8,
    pub(super) texture: u32,
    pub(super) sixteen: Color,
}

/// A colour behind words.
pub(super) struct Page {
    pub(super) tint: u32,
    pub(super) indexed: u8,
}

pub(super) fn page(tone: Tone) -> Page {
    let (tint, indexed) = match tone {
        Tone::Dark => (0x0d1117, 233),
        Tone::Paper => (0xfbf8f1, 230),
    };
    Page { tint, indexed }
}

pub(super) fn chosen(tone: Tone) -> Page {
    let (tint, indexed) = match tone {
        Tone::Dark => (0x3a2a3c, 53),
        Tone::Paper => (0xf3d9e4, 224),
    };
    Page { tint, indexed }
}

pub(super) fn look(role: Role, tone: Tone) -> Look {
    let none = Modifier::empty();
    let (ink, sixteen) = match tone {
        Tone::Dark => dark(role),
        Tone::Paper => paper(role),
    };
    let (weight, weight_alone) = match role {
        Role::Settlement | Role::Waypoint | Role::Cursor | Role::RouteChosen => {
            (Modifier::BOLD, none)
        }
        Role::StreamStrong | Role::Asked | Role::Answer | Role::Yours => (Modifier::BOLD, none),
        Role::Heading | Role::Key | Role::Error => (Modifier::BOLD, none),
        Role::WaterName => (Modifier::ITALIC, none),
        Role::Figure | Role::Warn | Role::Hazard | Role::Mark | Role::Route | Role::Thread => {
            (none, Modifier::BOLD)
        }
        Role::Dim | Role::Grid | Role::Letters | Role::DryingEdge | Role::StreamSlack => {
            (none, Modifier::DIM)
        }
        _ => (none, none),
    };
    Look { ink, sixteen, weight, weight_alone }
}

fn dark(role: Role) -> (u32, Color) {
    match role {
        Role::Shore => (0xecd9a6, Color::LightYellow),
        Role::DryingEdge => (0x7fae86, Color::Green),
        Role::Grid => (0x4e6478, Color::DarkGray),
        Role::Letters => (0x8095a8, Color::DarkGray),
        Role::Name => (0xf4ecd8, Color::White),
        Role::Settlement => (0xffffff, Color::White),
        Role::WaterName => (0xa9d3f2, Color::LightCyan),
        Role::Mark => (0xffd75f, Color::LightYellow),
        Role::Landing => (0x8ff0b4, Color::LightGreen),
        Role::Hazard => (0xffaf9f, Color::LightRed),
        Role::Race => (0xc98bdc, Color::Magenta),
        Role::StreamSlack => (0x7f93b8, Color::DarkGray),
        Role::Stream => (0x93b1f0, Color::LightBlue),
        Role::StreamStrong => (0xd3e0ff, Color::White),
        Role::Route => (0xff7eb6, Color::LightMagenta),
        Role::RouteChosen => (0xffffff, Color::White),
        Role::Waypoint => (0xffb3d6, Color::LightMagenta),
        Role::Pencil => (0xffb3d6, Color::LightMagenta),
        Role::Thread => (0x6ff2e6, Color::LightCyan),
        Role::Asked => (0xffd75f, Color::LightYellow),
        Role::Answer => (0x8ff0b4, Color::LightGreen),
        Role::Yours => (0xffb3d6, Color::LightMagenta),
        Role::Cursor => (0xffffff, Color::White),
        Role::Frame => (0x6f8192, Color::DarkGray),
        Role::FrameNumber => (0xb9c7d4, Color::Gray),
        Role::Text => (0xd8dee4, Color::Gray),
        Role::Figure => (0xffffff, Color::White),
        Role::Dim => (0x8796a5, Color::DarkGray),
        Role::Heading => (0x8fc7ee, Color::LightCyan),
        Role::Key => (0xffd75f, Color::LightYellow),
        Role::Warn => (0xffb454, Color::LightYellow),
        Role::Error => (0xff8f80, Color::LightRed),
    }
}

fn paper(role: Role) -> (u32, Color) {
    match role {
        Role::Shore => (0x4a3413, Color::Black),
        Role::DryingEdge => (0x5d7a45, Color::Green),
        Role::Grid => (0x9aa9b5, Color::DarkGray),
        Role::Letters => (0x5f7283, Color::DarkGray),
        Role::Name => (0x2b2012, Color::Black),
        Role::Settlement => (0x000000, Color::Black),
        Role::WaterName => (0x083a66, Color::Blue),
        Role::Mark => (0x4d3000, Color::Black),
        Role::Landing => (0x00552b, Color::Green),
        Role::Hazard => (0x9c1400, Color::Red),
        Role::Race => (0x7a2f92, Color::Magenta),
        Role::StreamSlack => (0x66769a, Color::DarkGray),
        Role::Stream => (0x2f55a4, Color::Blue),
        Role::StreamStrong => (0x0f2a66, Color::Blue),
        Role::Route => (0xb0105e, Color::Magenta),
        Role::RouteChosen => (0x5b002e, Color::Magenta),
        Role::Waypoint => (0x8a0046, Color::Magenta),
        Role::Pencil => (0x8a0046, Color::Magenta),
        Role::Thread => (0x005a5f, Color::Blue),
        Role::Asked => (0x4d3000, Color::Black),
        Role::Answer => (0x00552b, Color::Green),
        Role::Yours => (0x8a0046, Color::Magenta),
        Role::Cursor => (0x000000, Color::Black),
        Role::Frame => (0x6d6455, Color::DarkGray),
        Role::FrameNumber => (0x3d362b, Color::Black),
        Role::Text => (0x2b2620, Color::Black),
        Role::Figure => (0x000000, Color::Black),
        Role::Dim => (0x6a6358, Color::DarkGray),
        Role::Heading => (0x124a7a, Color::Blue),
        Role::Key => (0x7a3e00, Color::Red),
        Role::Warn => (0x8a4300, Color::Red),
        Role::Error => (0xa01000, Color::Red),
    }
}

pub(super) fn ground(ground: Ground, tone: Tone) -> GroundLook {
    let (tint, indexed, texture, sixteen) = match (tone, ground) {
        (Tone::Dark, Ground::Deep) => (0x0a131d, 233, 0x0a131d, Color::Reset),
        (Tone::Dark, Ground::Moderate) => (0x0e2133, 234, 0x1c3b56, Color::Blue),
        (Tone::Dark, Ground::Shallow) => (0x123049, 235, 0x24506f, Color::Blue),
        (Tone::Dark, Ground::Shoal) => (0x184260, 17, 0x33698c, Color::Cyan),
        (Tone::Dark, Ground::Drying) => (0x23402f, 22, 0x5e8a66, Color::Green),
        (Tone::Dark, Ground::Land) => (0x3d3423, 237, 0x74653f, Color::Yellow),
        (Tone::Paper, Ground::Deep) => (0xf9fbfc, 231, 0xf9fbfc, Color::Reset),
        (Tone::Paper, Ground::Moderate) => (0xe6f0f8, 255, 0xbcd4e8, Color::Blue),
        (Tone::Paper, Ground::Shallow) => (0xd0e4f3, 195, 0x9fc2de, Color::Blue),
        (Tone::Paper, Ground::Shoal) => (0xb6d5ec, 153, 0x7fadd0, Color::Cyan),
        (Tone::Paper, Ground::Drying) => (0xcbdcae, 150, 0x8aa365, Color::Green),
        (Tone::Paper, Ground::Land) => (0xf5e5ba, 223, 0xcbb174, Color::Yellow),
    };
    GroundLook { tint, indexed, texture, sixteen }
}

/// A colour given as `0xRRGGBB`.
pub(super) fn rgb(colour: u32) -> Color {
    Color::from_u32(colour)
}

/// The colour of the 256 that is nearest to a given one.
pub(super) fn indexed(colour: u32) -> Color {
    let distance = |index: &u8| {
        let parts = |c: u32| [c >> 16 & 255, c >> 8 & 255, c & 255].map(i64::from);
        let (a, b) = (parts(colour), parts(rgb_of_indexed(*index)));
        // Eyes see green best and blue least.
        let weights = [3, 4, 2];
        (0..3).map(|i| weights[i] * (a[i] - b[i]).pow(2)).sum::<i64>()
    };
    Color::Indexed((16..=255).min_by_key(distance).unwrap_or(16))
}

/// What a colour of the 256 above the terminal's own sixteen looks like: a cube of six steps, then
/// a ramp of greys.
pub(super) fn rgb_of_indexed(index: u8) -> u32 {
    let Some(n) = index.checked_sub(16) else {
        return 0;
    };
    let n = u32::from(n);
    if n >= 216 {
        let grey = 8 + (n - 216) * 10;
        return grey << 16 | grey << 8 | grey;
    }
    let step = |s: u32| if s == 0 { 0 } else { 55 + s * 40 };
    step(n / 36) << 16 | step(n / 6 % 6) << 8 | step(n % 6)
}

/// What a colour looks like on a common terminal with this theme; `ground` tells whether it lies
/// behind the ink.
pub(crate) fn shown(colour: Color, theme: &Theme, ground: bool) -> Color {
    let own = match colour {
        Color::Rgb(..) => return colour,
        Color::Indexed(index) if index >= 16 => return rgb(rgb_of_indexed(index)),
        Color::Reset if ground => page(theme.tone()).tint,
        Color::Reset => look(Role::Text, theme.tone()).ink,
        Color::Black | Color::Indexed(0) => 0x000000,
        Color::Red | Color::Indexed(1) => 0xcd3131,
        Color::Green | Color::Indexed(2) => 0x2f9e44,
        Color::Yellow | Color::Indexed(3) => 0xa8801f,
        Color::Blue | Color::Indexed(4) => 0x2f6fd0,
        Color::Magenta | Color::Indexed(5) => 0xb4359c,
        Color::Cyan | Color::Indexed(6) => 0x1f93b0,
        Color::Gray | Color::Indexed(7) => 0xcccccc,
        Color::DarkGray | Color::Indexed(8) => 0x707070,
        Color::LightRed | Color::Indexed(9) => 0xf1706b,
        Color::LightGreen | Color::Indexed(10) => 0x5fd68b,
        Color::LightYellow | Color::Indexed(11) => 0xf2e05c,
        Color::LightBlue | Color::Indexed(12) => 0x5ea0f5,
        Color::LightMagenta | Color::Indexed(13) => 0xe27ad6,
        Color::LightCyan | Color::Indexed(14) => 0x53cfe6,
        Color::White | Color::Indexed(_) => 0xffffff,
    };
    rgb(own)
}
