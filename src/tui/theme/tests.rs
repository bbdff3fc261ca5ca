//! Contrast and the colours of each kind of terminal.

use super::palette::rgb_of_indexed;
use super::*;
use rstest::rstest;

/// Inks that are read as words or figures on the chart.
const WORDS: [Role; 11] = [
    Role::Name,
    Role::Settlement,
    Role::WaterName,
    Role::Waypoint,
    Role::Landing,
    Role::Hazard,
    Role::Mark,
    Role::Asked,
    Role::Answer,
    Role::Yours,
    Role::Cursor,
];

/// Inks that are read as words off the chart.
const PAGE_WORDS: [Role; 9] = [
    Role::FrameNumber,
    Role::Text,
    Role::Figure,
    Role::Dim,
    Role::Heading,
    Role::Key,
    Role::Warn,
    Role::Error,
    Role::Waypoint,
];

/// Red, green and blue in linear light, from 0 to 1 (IEC 61966-2-1).
fn linear(colour: Color) -> [f64; 3] {
    let (r, g, b) = match colour {
        Color::Rgb(r, g, b) => (r, g, b),
        Color::Indexed(i) => {
            let c = rgb_of_indexed(i);
            ((c >> 16) as u8, (c >> 8) as u8, c as u8)
        }
        other => panic!("{other} has no fixed look"),
    };
    [r, g, b].map(|part| {
        let s = f64::from(part) / 255.0;
        if s <= 0.04045 { s / 12.92 } else { ((s + 0.055) / 1.055).powf(2.4) }
    })
}

/// The contrast ratio of WCAG 2.1, from 1 to 21.
fn contrast(a: Color, b: Color) -> f64 {
    let luminance = |c| {
        let [r, g, b] = linear(c);
        0.2126 * r + 0.7152 * g + 0.0722 * b
    };
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// What a reader without the cones for green sees (Viénot, Brettel and Mollon, "Digital video
/// colourmaps for checking the legibility of displays by dichromats", Color Research &
/// Application 24, 1999), as lightness and two opponent colours of CIELAB.
fn seen_without_green(colour: Color) -> [f64; 3] {
    let [r, g, b] = linear(colour);
    let long = 17.8824 * r + 43.5161 * g + 4.11935 * b;
    let short = 0.0299566 * r + 0.184309 * g + 1.46709 * b;
    let medium = 0.494207 * long + 1.24827 * short;
    let r = 0.0809444 * long - 0.130504 * medium + 0.116721 * short;
    let g = -0.0102485 * long + 0.0540194 * medium - 0.113615 * short;
    let b = -0.000365294 * long - 0.00412163 * medium + 0.693513 * short;
    let x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505;
    let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089;
    let f = |t: f64| if t > 0.008856 { t.cbrt() } else { 7.787 * t + 16.0 / 116.0 };
    [116.0 * f(y) - 16.0, 500.0 * (f(x) - f(y)), 200.0 * (f(y) - f(z))]
}

fn distance(a: Color, b: Color) -> f64 {
    let (a, b) = (seen_without_green(a), seen_without_green(b));
    (0..3).map(|i| (a[i] - b[i]).powi(2)).sum::<f64>().sqrt()
}

fn ink(theme: &Theme, role: Role) -> Color {
    theme.ink(role).fg.unwrap()
}

#[rstest]
fn words_stand_out_from_every_ground(
    #[values(Tone::Dark, Tone::Paper)] tone: Tone,
    #[values(Colours::True, Colours::Indexed)] colours: Colours,
) {
    let theme = Theme::new(tone, colours);
    for role in WORDS {
        for ground in Ground::ALL {
            let ratio = contrast(ink(&theme, role), theme.tint(ground));
            assert!(ratio >= 4.5, "{role:?} on {ground:?}: {ratio:.2}");
        }
    }
    for role in PAGE_WORDS {
        let ratio = contrast(ink(&theme, role), theme.page());
        assert!(ratio >= 4.5, "{role:?} on the page: {ratio:.2}");
    }
    let chosen = theme.chosen();
    assert!(contrast(chosen.fg.unwrap(), chosen.bg.unwrap()) >= 4.5);
}

#[rstest]
fn lines_stand_out_and_the_grid_is_quiet(
    #[values(Tone::Dark, Tone::Paper)] tone: Tone,
    #[values(Colours::True, Colours::Indexed)] colours: Colours,
) {
    let theme = Theme::new(tone, colours);
    for ground in Ground::ALL {
        let against = |role| contrast(ink(&theme, role), theme.tint(ground));
        for role in [Role::Shore, Role::Route, Role::RouteChosen, Role::Pencil, Role::Frame] {
            let least = if role == Role::Frame { 1.5 } else { 3.0 };
            assert!(against(role) >= least, "{role:?} on {ground:?}: {:.2}", against(role));
        }
        let grid = against(Role::Grid);
        assert!((1.15..4.0).contains(&grid), "grid on {ground:?}: {grid:.2}");
        assert!(grid < against(Role::Shore) / 1.5, "grid against shore on {ground:?}");
    }
}

#[rstest]
fn a_reader_without_green_tells_neighbouring_grounds_apart(
    #[values(Tone::Dark, Tone::Paper)] tone: Tone,
) {
    let theme = Theme::new(tone, Colours::True);
    for pair in Ground::ALL.windows(2) {
        let d = distance(theme.tint(pair[0]), theme.tint(pair[1]));
        assert!(d >= 4.5, "{pair:?}: {d:.1}");
    }
    for (a, b) in [
        (Ground::Deep, Ground::Land),
        (Ground::Deep, Ground::Drying),
        (Ground::Shallow, Ground::Land),
    ] {
        let d = distance(theme.tint(a), theme.tint(b));
        assert!(d >= 12.0, "{a:?} {b:?}: {d:.1}");
    }
    for other in [Role::Shore, Role::Landing, Role::Grid, Role::Mark] {
        let d = distance(ink(&theme, Role::Route), ink(&theme, other));
        assert!(d >= 12.0, "route and {other:?}: {d:.1}");
    }
}

#[test]
fn one_colour_is_no_colour() {
    for tone in [Tone::Dark, Tone::Paper] {
        let theme = Theme::new(tone, Colours::None);
        for role in Role::ALL {
            let style = theme.style(role);
            assert_eq!((style.fg, style.bg.unwrap_or_default()), (None, Color::Reset), "{role:?}");
        }
        for ground in Ground::ALL {
            assert_eq!((theme.tint(ground), theme.texture(ground).fg), (Color::Reset, None));
        }
    }
}

#[test]
fn sixteen_colours_are_the_terminals_own() {
    let theme = Theme::new(Tone::Dark, Colours::Sixteen);
    for role in Role::ALL {
        let fixed = matches!(theme.ink(role).fg, Some(Color::Rgb(..) | Color::Indexed(_)));
        assert!(!fixed, "{role:?}");
    }
}
