//! Lengths as they are typed: a number and its unit.

use std::str::FromStr;

use nav::Length;

/// A length, none or more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Distance(pub(crate) Length);

/// `500m`, `10 km`, `0.5NM`, in capitals or not.
impl FromStr for Distance {
    type Err = String;

    fn from_str(text: &str) -> Result<Distance, String> {
        let text = text.trim();
        let end = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
        let (number, unit) = text.split_at(end);
        let number: f64 = number
            .trim()
            .parse()
            .map_err(|_| "write a number and its unit, such as 500m, 10km or 0.5NM".to_owned())?;
        let length = match unit.to_ascii_lowercase().as_str() {
            "m" => Length::from_metres(number),
            "km" => Length::from_kilometres(number),
            "nm" => Length::from_nautical_miles(number),
            "" => return Err("the unit is missing: m, km or NM".to_owned()),
            _ => return Err(format!("{unit} is no unit of length here: m, km or NM")),
        };
        let length = length.map_err(|error| error.to_string())?;
        if length < Length::ZERO {
            return Err("a length is not negative".to_owned());
        }
        Ok(Distance(length))
    }
}

/// `2 km`, `100 m`: shortest in the metric unit that needs no decimals, if one does.
pub(super) fn written(length: Length) -> String {
    // What is typed in miles is no round number of metres to the last digit.
    let metres = (length.as_metres() * 1e6).round() / 1e6;
    if metres >= 1000.0 && (metres / 100.0).fract() == 0.0 {
        format!("{} km", metres / 1000.0)
    } else {
        format!("{metres} m")
    }
}
