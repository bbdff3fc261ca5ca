//! Practice on the screen, by keys and by pointer.

use practice::{Kind, Plan};

use crate::driver::Driver;
use crate::state::{DrillChoice, Hand, Overlay, Stage};
use crate::testing::tidal;

fn keys(driver: &mut Driver, text: &str) {
    driver.keys(text).unwrap();
}

fn driven(text: &str) -> Driver {
    let mut driver = tidal(120, 40);
    keys(&mut driver, text);
    driver
}

fn stage(driver: &Driver) -> &Stage {
    &driver.state.practice.drill.as_ref().unwrap().stage
}

#[test]
fn the_list_has_what_is_due_progress_and_every_kind() {
    let driver = driven("b");
    let Some(Overlay::Drills(list)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(list.rows.len(), 3 + Kind::ALL.len());
    assert!(matches!(list.rows[2].does, DrillChoice::Progress));
    assert!(
        matches!(&list.rows[3].does, DrillChoice::Begin(Plan::Kinds { kinds, .. }) if kinds == &[Kind::Reference])
    );
}

#[test]
fn a_question_is_answered_marked_and_kept() {
    let mut driver = driven("b Down Enter");
    let Stage::Asked(put) = stage(&driver) else { panic!("{:?}", stage(&driver)) };
    assert_eq!((put.number, driver.state.hand), (1, Hand::Drill));
    let right = put.question.answer.to_string();
    keys(&mut driver, &format!("a '{right}' Enter"));
    let Stage::Marked(_, told) = stage(&driver) else { panic!("{:?}", stage(&driver)) };
    assert!(told.mark.as_ref().unwrap().right, "{told:?}");
    assert_eq!(driver.record.answered().len(), 1);
    keys(&mut driver, "Enter o Enter");
    assert_eq!(driver.record.answered().len(), 2);
    let Stage::Asked(put) = stage(&driver) else { panic!("{:?}", stage(&driver)) };
    assert_eq!(put.number, 3);
}
