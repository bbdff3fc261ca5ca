//! When an action can be done.

use crate::state::{Hand, State};
use crate::view::drill_last_top;

/// What must hold for an action to be possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Nothing: it always is.
    Always,
    /// The route may be changed.
    Editable,
    /// The route may be changed, and a waypoint is under the cursor or chosen.
    EditablePoint,
    /// The route may be changed, and has a leg.
    EditableLeg,
    /// There is a waypoint.
    HasPoint,
    /// There is a leg.
    HasLeg,
    /// There is an anchor of a trace.
    HasAnchor,
    /// An anchor of the trace is under the cursor or chosen.
    AimedAnchor,
    /// The trace has a line.
    HasLine,
    /// The route may be changed, and the trace has a line.
    EditableTrace,
    /// The route may be changed, and a traced leg of it is chosen or under the cursor.
    TracedLeg,
    /// A bearing was taken for a fix.
    HasBearing,
    /// One is under the cursor or chosen.
    AimedBearing,
    /// The route may be changed, and the bearings give a fix.
    EditableFix,
    /// There is a change to take back.
    CanUndo,
    /// There is a change that was taken back.
    CanRedo,
    /// The chart has tides that can be told.
    HasTides,
    /// It has a port.
    HasPorts,
    /// It has a stream.
    HasStreams,
    /// It has tides, and the route a departure.
    HasDeparture,
    /// It has tides, and the route a leg.
    HasWay,
    /// The screen has no room for the table of legs.
    Folded,
    /// A question of practice stands.
    Asked,
    /// One stands that has a hint left.
    Hinted,
    /// There is more of it than is seen: of the question in hand, or of its explanation.
    More,
    /// The shell can take the terminal back for a while.
    JobControl,
}

impl When {
    /// Whether it holds in `state`.
    pub fn holds(self, state: &State) -> bool {
        let editable = state.read_only().is_none();
        let points = state.document.route().points.len();
        match self {
            When::Always => true,
            When::Editable => editable,
            When::EditablePoint => editable && state.aimed_point().is_some(),
            When::EditableLeg => editable && points > 1,
            When::HasPoint => points > 0,
            When::HasLeg => points > 1,
            When::HasAnchor => !state.thread.anchors().is_empty(),
            When::AimedAnchor => state.aimed_anchor().is_some(),
            When::HasLine => state.thread.has_line(),
            When::EditableTrace => editable && state.thread.has_line(),
            When::TracedLeg => editable && state.traced_leg().is_some(),
            When::HasBearing => !state.bearings.taken().is_empty(),
            When::AimedBearing => state.aimed_bearing().is_some(),
            When::EditableFix => editable && matches!(state.fixed(), Some(Ok(_))),
            When::CanUndo if state.hand == Hand::Fix => state.bearings.can_undo(),
            When::CanRedo if state.hand == Hand::Fix => state.bearings.can_redo(),
            When::CanUndo if state.hand.traces() => state.thread.can_undo(),
            When::CanRedo if state.hand.traces() => state.thread.can_redo(),
            When::CanUndo => editable && state.document.can_undo().is_some(),
            When::CanRedo => editable && state.document.can_redo().is_some(),
            When::HasTides => state.tides().is_some(),
            When::HasPorts => state.tides().is_some_and(|tides| !tides.gauges().is_empty()),
            When::HasStreams => state.tides().is_some_and(|tides| !tides.stations().is_empty()),
            When::HasDeparture => {
                state.tides().is_some() && state.document.route().departure.is_some()
            }
            When::HasWay => state.tides().is_some() && points > 1,
            When::Folded => !state.layout().shape.has_column(),
            When::Asked => state.practice.asked().is_some(),
            When::Hinted => {
                state.practice.asked().is_some_and(|put| put.hints < put.question.hints.len())
            }
            When::More => {
                let drill = state.practice.drill.as_ref();
                drill.is_some_and(|drill| drill.top() < drill_last_top(state))
            }
            When::JobControl => cfg!(unix),
        }
    }

    /// What is missing when it does not hold, as the screen says it.
    pub fn missing(self, state: &State) -> String {
        if let (true, Some(why)) = (self.changes_route(state), state.read_only()) {
            return format!("read-only: {why}");
        }
        match self {
            When::Always | When::Editable => String::new(),
            When::EditablePoint => {
                "no waypoint is under the cursor or chosen; Tab chooses one".to_owned()
            }
            When::EditableLeg | When::HasLeg => "the route has no leg yet".to_owned(),
            When::HasPoint => "the route has no waypoint yet".to_owned(),
            When::HasAnchor => "there is no trace; it begins with an anchor".to_owned(),
            When::AimedAnchor => "no anchor is under the cursor or chosen".to_owned(),
            When::HasLine | When::EditableTrace => {
                "a line needs two anchors, or one and a whole round".to_owned()
            }
            When::TracedLeg => "no traced leg is chosen or under the cursor".to_owned(),
            When::HasBearing => "no bearing was taken yet".to_owned(),
            When::AimedBearing => "no bearing is under the cursor or chosen".to_owned(),
            When::EditableFix => match state.fixed() {
                Some(Err(why)) => why.to_string(),
                _ => "a fix needs two bearings".to_owned(),
            },
            When::CanUndo => "there is no change to take back".to_owned(),
            When::CanRedo => "there is no change to make again".to_owned(),
            When::HasTides
            | When::HasPorts
            | When::HasStreams
            | When::HasDeparture
            | When::HasWay => self.missing_water(state),
            When::Folded => "the table of legs stands beside the chart".to_owned(),
            When::Hinted if state.practice.asked().is_some() => "there is no other hint".to_owned(),
            When::Asked | When::Hinted => "no question stands".to_owned(),
            When::More => "all of it is seen, to its end".to_owned(),
            When::JobControl => "there is no shell to go back to on this system".to_owned(),
        }
    }

    /// What of the water is missing.
    fn missing_water(self, state: &State) -> String {
        match (&state.tides, self) {
            (Err(why), _) => why.to_string(),
            (Ok(_), When::HasDeparture) if state.tides().is_some() => {
                "the route has no departure yet".to_owned()
            }
            (Ok(tides), When::HasStreams) if !tides.gauges().is_empty() => {
                "the chart has no streams".to_owned()
            }
            (Ok(tides), When::HasPorts) if !tides.stations().is_empty() => {
                "the chart has no ports".to_owned()
            }
            (Ok(_), When::HasWay) if state.tides().is_some() => {
                "the route has no leg yet".to_owned()
            }
            _ => "the chart has no tides".to_owned(),
        }
    }

    /// Whether what it allows changes the route.
    fn changes_route(self, state: &State) -> bool {
        match self {
            When::CanUndo | When::CanRedo => !state.hand.has_history(),
            When::Editable
            | When::EditablePoint
            | When::EditableLeg
            | When::EditableTrace
            | When::EditableFix
            | When::TracedLeg => true,
            _ => false,
        }
    }

    /// When it holds, as the manual says it; empty if always.
    pub fn words(self) -> &'static str {
        match self {
            When::Always => "",
            When::Editable => "unless read-only",
            When::EditablePoint => "with a waypoint under the cursor or chosen",
            When::EditableLeg | When::HasLeg => "with two waypoints or more",
            When::HasPoint => "with a waypoint",
            When::HasAnchor => "with an anchor",
            When::AimedAnchor => "with an anchor under the cursor or chosen",
            When::HasLine | When::EditableTrace => "with a line",
            When::TracedLeg => "with a traced leg chosen or under the cursor",
            When::HasBearing => "with a bearing",
            When::AimedBearing => "with a bearing under the cursor or chosen",
            When::EditableFix => "with a fix",
            When::CanUndo => "after a change",
            When::CanRedo => "after an undo",
            When::HasTides => "with tides on the chart",
            When::HasPorts => "with a port on the chart",
            When::HasStreams => "with a stream on the chart",
            When::HasDeparture => "with tides and a departure",
            When::HasWay => "with tides and two waypoints",
            When::Folded => "on a small screen",
            When::Asked => "with a question",
            When::Hinted => "while there is a hint left",
            When::More => "where there is more",
            When::JobControl => "under a shell",
        }
    }
}
