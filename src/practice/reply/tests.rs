//! Answers as people write them.

use nav::Grid;
use rstest::rstest;

use super::*;
use crate::{Choice, Tolerance};

fn asks(answer: Answer) -> Question {
    let grid = Grid::parse("EPSG:27700").unwrap();
    Question::new(String::new(), answer, Tolerance::Exact, &grid)
}

fn amount(unit: Unit) -> Question {
    asks(Answer::Amount { value: 1.0, unit, decimals: 1 })
}

#[rstest]
#[case("047", 47.0, None)]
#[case("47 T", 47.0, Some(NorthOf::True))]
#[case("047°M", 47.0, Some(NorthOf::Magnetic))]
#[case("047 ° m", 47.0, Some(NorthOf::Magnetic))]
#[case("47,5 degrees grid", 47.5, Some(NorthOf::Grid))]
#[case("360", 0.0, None)]
#[case("47", 47.0, None)]
#[case("047T", 47.0, Some(NorthOf::True))]
#[case("47 M", 47.0, Some(NorthOf::Magnetic))]
#[case("T 047", 47.0, Some(NorthOf::True))]
#[case("047 deg (M)", 47.0, Some(NorthOf::Magnetic))]
#[case("about 47 degrees true, I think", 47.0, Some(NorthOf::True))]
#[case("SW", 225.0, None)]
#[case("north-north-east", 22.5, None)]
#[case("N", 0.0, None)]
fn bearings_are_read(#[case] text: &str, #[case] degrees: f64, #[case] north: Option<NorthOf>) {
    let question = asks(Answer::bearing(0.0, NorthOf::True));
    assert_eq!(question.read(text), Ok(Reply::Bearing { degrees, north }));
}

#[rstest]
#[case("4.3", Unit::Miles, 4.3)]
#[case("4,3 NM", Unit::Miles, 4.3)]
#[case("4.3 M", Unit::Miles, 4.3)]
#[case("1852 m", Unit::Metres, 1852.0)]
#[case("1.852 km", Unit::Miles, 1.0)]
#[case("2 miles", Unit::Kilometres, 3.704)]
#[case("850 m", Unit::Kilometres, 0.85)]
#[case("-0.3", Unit::Metres, -0.3)]
#[case("1h25", Unit::Minutes, 85.0)]
#[case("85 min", Unit::Minutes, 85.0)]
#[case("85 minutes", Unit::Minutes, 85.0)]
#[case("1 hour 25 minutes", Unit::Minutes, 85.0)]
#[case("1:25", Unit::Minutes, 85.0)]
#[case("1.4 h", Unit::Minutes, 84.0)]
#[case("85m", Unit::Minutes, 85.0)]
#[case("1.8 kn", Unit::Knots, 1.8)]
#[case("3.704 km/h", Unit::Knots, 2.0)]
#[case("3 nm", Unit::Miles, 3.0)]
#[case("4.3 nautical miles", Unit::Miles, 4.3)]
#[case("about 4.3 NM straight across", Unit::Miles, 4.3)]
#[case("~8km.", Unit::Kilometres, 8.0)]
#[case("2.4 m above datum", Unit::Metres, 2.4)]
#[case("1 h 25 min", Unit::Minutes, 85.0)]
#[case("1 hour and 25 minutes", Unit::Minutes, 85.0)]
#[case("85 min or so", Unit::Minutes, 85.0)]
#[case("90", Unit::Minutes, 90.0)]
#[case("1 h", Unit::Minutes, 60.0)]
fn amounts_are_read(#[case] text: &str, #[case] unit: Unit, #[case] value: f64) {
    let Ok(Reply::Amount(read)) = amount(unit).read(text) else { panic!("{text}") };
    assert!((read - value).abs() < 1e-9, "{read}");
}

#[rstest]
#[case("14:05", 845)]
#[case("1405", 845)]
#[case("14.05", 845)]
#[case("14h05", 845)]
#[case("905", 545)]
#[case("00:00", 0)]
#[case("14:05 UTC", 845)]
#[case("1405 hrs", 845)]
#[case("14:05 by my watch", 845)]
#[case("2:05 pm", 845)]
#[case("9,05", 545)]
fn times_of_day_are_read(#[case] text: &str, #[case] minute: i64) {
    assert_eq!(asks(Answer::Clock(0)).read(text), Ok(Reply::Clock(minute)));
}

#[test]
fn references_are_read_however_they_are_spaced() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let square = grid.parse_reference("NX 509 582", None).unwrap();
    let at = on_chart(square.centre());
    let question = asks(Answer::Reference { text: String::new(), square, at });
    for text in
        ["NX 509 582", "nx509582", "NX509 582", "509582", " 509 582 ", "NX 509 582 the light"]
    {
        assert_eq!(question.read(text), Ok(Reply::Reference(square)), "{text}");
    }
}

#[test]
fn a_place_is_a_reference_or_a_position() {
    let question =
        asks(Answer::Place { at: Point { x: 250_950.0, y: 558_250.0 }, text: String::new() });
    let Ok(Reply::At(by_reference)) = question.read("NX509582") else { panic!() };
    assert_eq!(by_reference, Point { x: 250_950.0, y: 558_250.0 });
    assert!(matches!(question.read("54°53.6′N 4°19.6′W"), Ok(Reply::At(_))));
    assert!(question.read("over there").is_err());
    for text in ["54 53.6N 4 19.6W", "54°53.6'N 004°19.6'W off the pier", "54,8933 -4,3267"] {
        assert!(matches!(question.read(text), Ok(Reply::At(_))), "{text}");
    }
    let position = asks(Answer::Position(Position::from_degrees(57.155, -5.67).unwrap()));
    for text in ["57 09.3N 5 40.2W", "57°09.3′N 005°40.2′W", "57 09,3 N 5 40,2 W or so"] {
        let Ok(Reply::Position(at)) = position.read(text) else { panic!("{text}") };
        assert!((at.lat.as_degrees() - 57.155).abs() < 1e-9, "{text}");
    }
}

#[test]
fn choices_are_read_by_letter_number_or_words() {
    let choices = ["leg 1", "leg 2", "Long Ness light"];
    let choices = choices.map(|text| Choice { text: text.to_owned(), at: None });
    let question = Question { choices: choices.to_vec(), ..asks(Answer::Choice(1)) };
    for text in ["b", "B)", "(b)", "leg 2", "2"] {
        assert_eq!(question.read(text), Ok(Reply::Choice(1)), "{text}");
    }
    assert_eq!(question.read("long ness light"), Ok(Reply::Choice(2)));
    let said = question.read("d").unwrap_err().to_string();
    assert_eq!(said, "“d” is none of the answers; write a letter from a to c");
}

#[rstest]
#[case(
    asks(Answer::bearing(0.0, NorthOf::True)),
    "380",
    "“380” is no bearing; write three figures from 000 to 360, such as 047"
)]
#[case(
    asks(Answer::bearing(0.0, NorthOf::True)),
    "47 W",
    "“47 W” is no bearing; write three figures from 000 to 360, such as 047"
)]
#[case(
    amount(Unit::Miles),
    "far",
    "“far” is no answer here; write a number of nautical miles, such as 4.3 or 4.3 NM"
)]
#[case(
    amount(Unit::Minutes),
    "-5",
    "“-5” is no answer here; write a number of minutes, such as 85, 85 min or 1 h 25"
)]
#[case(
    amount(Unit::Knots),
    "3 km",
    "“3 km” is no answer here; write a number of knots, such as 1.8 or 1.8 kn"
)]
#[case(
    asks(Answer::Clock(0)),
    "24:10",
    "“24:10” is no time of day; write hours and minutes, such as 14:05"
)]
#[case(
    asks(Answer::Letters(String::new())),
    "QB1",
    "“QB1” are no letters of a square; write them alone, such as QB"
)]
#[case(
    amount(Unit::Minutes),
    "1.25",
    "“1.25” is no answer here; write a number of minutes, such as 85, 85 min or 1 h 25"
)]
#[case(
    asks(Answer::bearing(0.0, NorthOf::True)),
    "47 pears",
    "“47 pears” is no bearing; write three figures from 000 to 360, such as 047"
)]
#[case(amount(Unit::Miles), " ", "there is no answer yet")]
fn what_is_not_understood_is_said(
    #[case] question: Question,
    #[case] text: &str,
    #[case] said: &str,
) {
    assert_eq!(question.read(text).unwrap_err().to_string(), said);
}
