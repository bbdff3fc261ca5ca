//! Marks of single answers.

use nav::Grid;

use crate::{Answer, NorthOf, Question, Tolerance, Unit};

fn asks(answer: Answer, tolerance: Tolerance) -> Question {
    Question::new(String::new(), answer, tolerance, &Grid::parse("EPSG:27700").unwrap())
}

#[test]
fn a_tolerance_holds_to_its_edge_and_no_farther() {
    let bearing = asks(Answer::bearing(359.0, NorthOf::True), Tolerance::Degrees(2.0));
    for (given, right) in [("357", true), ("356.9", false), ("001", true), ("1.1", false)] {
        assert_eq!(bearing.mark(given).unwrap().right, right, "{given}");
    }
    let answer = Answer::Amount { value: 8.0, unit: Unit::Kilometres, decimals: 1 };
    let far = asks(answer.clone(), Tolerance::Share(0.05));
    for (given, right) in [("7.6", true), ("7.59", false), ("8.4", true), ("4.32 NM", true)] {
        assert_eq!(far.mark(given).unwrap().right, right, "{given}");
    }
    let exact = asks(answer, Tolerance::Exact);
    for (given, right) in [("8", true), ("8.04", true), ("8.06", false)] {
        assert_eq!(exact.mark(given).unwrap().right, right, "{given}");
    }
    let clock = asks(Answer::Clock(5), Tolerance::Units(10.0));
    for (given, right) in [("23:55", true), ("23:54", false), ("00:15", true), ("00:16", false)] {
        assert_eq!(clock.mark(given).unwrap().right, right, "{given}");
    }
}

#[test]
fn longitudes_are_compared_over_the_date_line() {
    let at = nav::Position::from_degrees(10.0, 179.999).unwrap();
    let question = asks(Answer::Position(at), Tolerance::ArcMinutes(0.2));
    let mark = question.mark("10°00.0′N 179°59.9′W").unwrap();
    assert!(mark.right, "{mark:?}");
    assert_eq!(question.mark("10°03.0′N 179°59.9′E").unwrap().off.unwrap(), "3.0′ too far north");
}
