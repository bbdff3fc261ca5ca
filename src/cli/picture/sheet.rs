//! Scales and pages as they are typed.

use std::str::FromStr;

use ::chart::Extent;
use paper::Sheet;
use paper::draw::Size;
use paper::map::Scale;

/// A page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Paper {
    /// A sheet of this size, upright or lying.
    Iso(Size),
    /// Millimetres across and down.
    Exact(Size),
}

const A6: Size = Size::new(105.0, 148.0);
const A5: Size = Size::new(148.0, 210.0);
const A4: Size = Size::new(210.0, 297.0);
const A3: Size = Size::new(297.0, 420.0);

/// `a4`, `210x297`.
impl FromStr for Paper {
    type Err = String;

    fn from_str(text: &str) -> Result<Paper, String> {
        let sheet = match text.to_ascii_lowercase().as_str() {
            "a6" => Some(A6),
            "a5" => Some(A5),
            "a4" => Some(A4),
            "a3" => Some(A3),
            _ => None,
        };
        if let Some(sheet) = sheet {
            return Ok(Paper::Iso(sheet));
        }
        let millimetres = |text: &str| {
            let number: Option<f64> = text.trim().parse().ok();
            number.filter(|number| number.is_finite() && *number > 0.0)
        };
        let sides = text.split_once(['x', '×']);
        let sides =
            sides.and_then(|(across, down)| Some((millimetres(across)?, millimetres(down)?)));
        sides.map(|(across, down)| Paper::Exact(Size::new(across, down))).ok_or_else(|| {
            "write a3, a4, a5 or a6, or millimetres across and down, such as 210x297".to_owned()
        })
    }
}

impl Paper {
    /// The page for a part of a chart.
    fn of(self, extent: Extent) -> Size {
        match self {
            Paper::Exact(size) => size,
            Paper::Iso(size) if extent.width() > extent.height() => size.turned(),
            Paper::Iso(size) => size,
        }
    }
}

/// The page at a scale, of a size, or both.
pub(super) fn sheet(size: Option<Paper>, scale: Option<Scale>, extent: Extent) -> Sheet {
    match (size.map(|size| size.of(extent)), scale) {
        (Some(size), Some(scale)) => Sheet::About(size, scale),
        (Some(size), None) => Sheet::On(size),
        (None, Some(scale)) => Sheet::At(scale),
        (None, None) => Sheet::On(Paper::Iso(A4).of(extent)),
    }
}

/// `1:25000`, `1:25,000`, `25000`.
pub(crate) fn scale(text: &str) -> Result<Scale, String> {
    let number = text.strip_prefix("1:").unwrap_or(text).replace([',', ' ', '_'], "");
    let one_to: u64 = number.parse().map_err(|_| "write a scale such as 1:25000".to_owned())?;
    // What is over the bound of the number is over that of scales.
    let one_to = u32::try_from(one_to).unwrap_or(u32::MAX);
    Scale::new(one_to).map_err(|error| error.to_string())
}
