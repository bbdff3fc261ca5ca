//! Latitudes and longitudes, written.

use crate::{Datum, Latitude, Longitude, Position};

/// How an angle's fractions are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum AngleForm {
    /// `57.15500°N`
    Degrees,
    /// `57°09.3′N`, as on a chart
    #[default]
    DegreesMinutes,
    /// `57°09′18″N`
    DegreesMinutesSeconds,
}

impl AngleForm {
    /// All forms, the coarsest unit first.
    pub const ALL: [AngleForm; 3] =
        [AngleForm::Degrees, AngleForm::DegreesMinutes, AngleForm::DegreesMinutesSeconds];

    /// What it counts in, in words: `degrees`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            AngleForm::Degrees => "degrees",
            AngleForm::DegreesMinutes => "degrees and minutes",
            AngleForm::DegreesMinutesSeconds => "degrees, minutes and seconds",
        }
    }
}

/// A form, and how many decimals its last figure has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AngleStyle {
    form: AngleForm,
    decimals: u8,
}

impl AngleStyle {
    /// The most decimals: more than a position can carry.
    pub const MOST_DECIMALS: u8 = 9;

    /// This form with so many decimals, but no more than [`AngleStyle::MOST_DECIMALS`].
    #[must_use]
    pub const fn new(form: AngleForm, decimals: u8) -> AngleStyle {
        let most = Self::MOST_DECIMALS;
        AngleStyle { form, decimals: if decimals > most { most } else { decimals } }
    }

    /// How many of the last figure's last digits make a degree.
    const fn digits_in_a_degree(self) -> u64 {
        let figures = match self.form {
            AngleForm::Degrees => 1,
            AngleForm::DegreesMinutes => 60,
            AngleForm::DegreesMinutesSeconds => 3600,
        };
        figures * 10_u64.pow(self.decimals as u32)
    }

    /// The degrees between one angle as it is written and the next.
    #[must_use]
    pub const fn step_in_degrees(self) -> f64 {
        1.0 / self.digits_in_a_degree() as f64
    }
}

/// Degrees and minutes to a tenth, as on a chart: `57°09.3′N`.
impl Default for AngleStyle {
    fn default() -> Self {
        AngleStyle::new(AngleForm::DegreesMinutes, 1)
    }
}

/// A latitude, rounded to the style's last digit: `57°09.3′N`.
#[must_use]
pub fn latitude(lat: Latitude, style: AngleStyle) -> String {
    angle(lat.as_degrees(), 2, ['N', 'S'], style)
}

/// A longitude, rounded to the style's last digit: `002°04.8′W`.
#[must_use]
pub fn longitude(lon: Longitude, style: AngleStyle) -> String {
    angle(lon.as_degrees(), 3, ['E', 'W'], style)
}

/// A position, latitude first: `57°09.3′N  002°04.8′W`.
///
/// ```
/// use nav::Position;
/// use nav::text::{AngleForm, AngleStyle, position};
/// let here: Position = Position::from_degrees(57.155, -2.08)?;
/// assert_eq!(position(here, AngleStyle::default()), "57°09.3′N  002°04.8′W");
/// let seconds = AngleStyle::new(AngleForm::DegreesMinutesSeconds, 0);
/// assert_eq!(position(here, seconds), "57°09′18″N  002°04′48″W");
/// let degrees = AngleStyle::new(AngleForm::Degrees, 5);
/// assert_eq!(position(here, degrees), "57.15500°N  002.08000°W");
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[must_use]
pub fn position<D: Datum>(position: Position<D>, style: AngleStyle) -> String {
    format!("{}  {}", latitude(position.lat, style), longitude(position.lon, style))
}

/// Rounds once, to whole last digits, and takes the figures out of those: so a 59.95 carries,
/// and no figure is ever a 60.
fn angle(degrees: f64, width: usize, [plus, minus]: [char; 2], style: AngleStyle) -> String {
    let in_a_degree = style.digits_in_a_degree();
    // At most 180 × 3600 × 10⁹, which a u64 and a double both hold exactly.
    let digits = (degrees.abs() * in_a_degree as f64).round() as u64;
    let side = if degrees < 0.0 && digits > 0 { minus } else { plus };
    let whole = digits / in_a_degree;
    let rest = digits % in_a_degree;
    match style.form {
        AngleForm::Degrees => format!("{whole:0width$}{}°{side}", fraction(rest, style)),
        AngleForm::DegreesMinutes => {
            format!("{whole:0width$}°{}′{side}", figure(rest, style))
        }
        AngleForm::DegreesMinutesSeconds => {
            let in_a_minute = in_a_degree / 60;
            let (minutes, rest) = (rest / in_a_minute, rest % in_a_minute);
            format!("{whole:0width$}°{minutes:02}′{}″{side}", figure(rest, style))
        }
    }
}

/// The last figure with its decimals: `09.3`.
fn figure(digits: u64, style: AngleStyle) -> String {
    let in_a_figure = 10_u64.pow(u32::from(style.decimals));
    format!("{:02}{}", digits / in_a_figure, fraction(digits % in_a_figure, style))
}

/// The decimals with their point: `.3`.
fn fraction(digits: u64, style: AngleStyle) -> String {
    let places = usize::from(style.decimals);
    if places == 0 { String::new() } else { format!(".{digits:0places$}") }
}
