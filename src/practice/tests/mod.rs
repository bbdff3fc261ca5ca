//! The questions as a whole.

use chart::coast::Coast;

use crate::{Ground, Kind, Level, ask};

#[test]
fn the_right_answer_is_right_and_no_mistake_is() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    for kind in
        [Kind::Reference, Kind::Find, Kind::Figures, Kind::Back, Kind::ToMagnetic, Kind::ToGrid]
    {
        for level in Level::ALL {
            for seed in 0..100 {
                let question = ask(kind, &ground, seed, level).unwrap();
                let mark = question.mark(&question.answer.to_string()).unwrap();
                assert!(mark.right, "{question:#?}\n{mark:#?}");
                for mistake in &question.mistakes {
                    assert!(!question.mark_reply(&mistake.answer.reply()).right);
                }
            }
        }
    }
}
