//! Bearings of marks that were taken for a fix, as a session keeps them.

use chart::Point;
use chart::clean::{NAME, clean};
use files::{KeptBearing, KeptBearings};
use nav::Turn;
use nav::fix::HAND_COMPASS;

use crate::State;
use crate::action::Act;
use crate::state::{Bearings, ERRORS, MOST_BEARINGS, Mark, Taken, read_bearing};

/// What is kept of the bearings; nothing where none was taken and nothing said of them.
pub(super) fn kept(state: &State) -> Option<KeptBearings> {
    let bearing = |taken: &Taken| KeptBearing {
        at: (taken.mark.at.x, taken.mark.at.y),
        name: taken.mark.name.clone(),
        named: taken.mark.named,
        read: taken.read.typed(),
    };
    let taken: Vec<_> = state.bearings.taken().iter().map(bearing).collect();
    let off = Some(state.bearings.error).filter(|off| *off != HAND_COMPASS);
    let is_nothing = taken.is_empty() && off.is_none();
    (!is_nothing).then(|| KeptBearings { taken, off_deg: off.map(Turn::as_degrees) })
}

/// Takes up what was kept, as far as it can be used, and gives a word about it.
pub(super) fn take_out(state: &mut State, kept: &KeptBearings) -> Option<String> {
    let taken = kept.taken.iter().filter_map(|it| taken(state, it));
    let taken: Vec<_> = taken.take(MOST_BEARINGS).collect();
    let off = kept.off_deg.filter(|off| ERRORS.contains(off));
    let off = off.and_then(|off| Turn::from_degrees(off).ok()).unwrap_or(HAND_COMPASS);
    state.bearings = Bearings::again(taken, off);
    let count = match state.bearings.taken().len() {
        0 => return None,
        1 => "1 bearing is".to_owned(),
        count => format!("{count} bearings are"),
    };
    let key = state.keymap.shown(Act::Fix)?;
    Some(format!("{count} kept; {key} goes on with the fix"))
}

fn taken(state: &State, kept: &KeptBearing) -> Option<Taken> {
    let at = Point { x: kept.at.0, y: kept.at.1 };
    let position = state.position_of(at)?;
    let mark = Mark { at, position, name: clean(&kept.name, NAME), named: kept.named };
    Some(Taken { mark, read: read_bearing(&kept.read).ok()? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::driver::Driver;
    use crate::testing::tidal;

    /// The program begun anew with what was kept.
    fn again(kept: &KeptBearings) -> (Driver, Option<String>) {
        let mut next = tidal(80, 24);
        let word = take_out(&mut next.state, kept);
        (next, word)
    }

    #[test]
    fn what_is_kept_is_the_same_again() {
        let mut driver = tidal(80, 24);
        driver.keys("F '12,3456789T' Enter Right*9 Down*3 340G Enter Left*20 Up*7 '90.5' Enter s Ctrl-U '2.5' Enter").unwrap();
        let before = &driver.state;
        let kept = kept(before).unwrap();
        let (next, word) = again(&kept);
        assert_eq!(next.state.bearings.taken(), before.bearings.taken());
        assert_eq!(next.state.bearings.error, before.bearings.error);
        assert_eq!(next.state.fixed(), before.fixed());
        assert_eq!(before.bearings.taken().len(), 3);
        assert_eq!(word.unwrap(), "3 bearings are kept; F goes on with the fix");
        driver.keys("X s Ctrl-U 3 Enter").unwrap();
        assert_eq!(super::kept(&driver.state), None);
    }

    #[test]
    fn what_cannot_be_used_is_passed_over() {
        let at = tidal(80, 24).state.cursor;
        let bearing = |read: &str, x: f64| KeptBearing {
            at: (x, at.y),
            name: "A\u{1b}[2J".to_owned(),
            named: true,
            read: read.to_owned(),
        };
        let taken = vec![bearing("10M", at.x), bearing("west", at.x), bearing("20M", f64::NAN)];
        let kept = KeptBearings { taken, off_deg: Some(400.0) };
        let (next, word) = again(&kept);
        assert_eq!(word.unwrap(), "1 bearing is kept; F goes on with the fix");
        assert!(!next.state.bearings.taken()[0].mark.name.contains('\u{1b}'));
        assert_eq!(next.state.bearings.error, HAND_COMPASS);
        let many = KeptBearings { taken: vec![bearing("10M", at.x); 40], off_deg: None };
        assert_eq!(again(&many).0.state.bearings.taken().len(), MOST_BEARINGS);
        assert_eq!(again(&KeptBearings::default()).1, None);
    }
}
