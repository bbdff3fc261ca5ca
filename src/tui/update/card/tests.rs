//! The card from the screen.

use paper::card::Size;

use crate::action::Act;
use crate::driver::Driver;
use crate::job::Task;
use crate::state::{Access, Tone};
use crate::testing::{driver, tidal_island};
use crate::{Command, Msg, update};

const TWO: &str = "Enter Right*20 Enter";

fn said(driver: &Driver) -> (Tone, &str) {
    let message = driver.state.message.as_ref().unwrap();
    (message.tone, &message.text)
}

#[test]
fn one_key_makes_the_card_and_says_where_it_is() {
    for mut driver in [driver(80, 24), tidal_island(200, 60), driver(60, 20)] {
        driver.keys(TWO).unwrap();
        let (route, saves) = (driver.state.document.route().clone(), driver.saves);
        driver.keys("C").unwrap();
        let card = driver.card.as_ref().unwrap();
        assert!(card.bytes.starts_with(b"%PDF-1.7") && card.sides > 0);
        let sides =
            if card.sides == 1 { "1 side".to_owned() } else { format!("{} sides", card.sides) };
        assert_eq!(said(&driver), (Tone::Word, format!("card: card.pdf, {sides} of A5").as_str()));
        assert_eq!((driver.state.document.route(), driver.saves), (&route, saves));
    }
}

#[test]
fn the_card_is_made_on_the_paper_that_was_chosen_and_says_so() {
    let mut driver = driver(80, 24);
    driver.keys(TWO).unwrap();
    driver.state.settings.card = Size::A4;
    driver.keys("C").unwrap();
    assert_eq!(driver.card.as_ref().unwrap().size, Size::A4);
    assert!(said(&driver).1.ends_with(" of A4"), "{}", said(&driver).1);
    driver.state.settings.card = Size::A6;
    driver.keys("C").unwrap();
    let a6 = driver.card.as_ref().unwrap();
    assert!(said(&driver).1.ends_with(" of A6") && a6.size == Size::A6);
}

#[test]
fn by_the_list_of_actions_too_and_on_a_route_that_is_only_read() {
    let mut driver = driver(80, 24);
    driver.keys(TWO).unwrap();
    driver.state.access = Access::ReadOnly("open elsewhere".to_owned());
    driver.keys("Ctrl-P 'deck card' Enter").unwrap();
    assert!(driver.card.is_some());
}

#[test]
fn without_a_waypoint_there_is_nothing_to_make() {
    let mut driver = driver(80, 24);
    driver.keys("C").unwrap();
    assert!(driver.card.is_none());
    assert_eq!(said(&driver), (Tone::Refusal, "the route has no waypoint yet"));
}

#[test]
fn what_goes_wrong_is_said() {
    let mut driver = driver(80, 24);
    let why = "day.pdf: cannot be saved, and is as it was: No space left on device".to_owned();
    driver.send(Msg::CardFailed(why.clone()));
    assert_eq!(said(&driver), (Tone::Refusal, format!("no card: {why}").as_str()));
}

#[test]
fn it_is_made_beside_the_loop() {
    let mut driver = driver(80, 24);
    driver.keys(TWO).unwrap();
    let commands = update(&mut driver.state, Msg::Act(Act::Card));
    assert!(matches!(&commands[..], [Command::Compute(job)] if job.ticket().task == Task::Card));
    assert!(driver.state.work.does(Task::Card));
}
