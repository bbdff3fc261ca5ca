//! The one table of actions: everything that can be done, each with its keys.
//!
//! Key lookup, hints, the help overlay, the action list, the README's table and the manual page
//! all come from here.

use super::Context::{
    self, Anchor, Ask, Carry, Dividers, Drill, Drills, Fix, Help, Jump, Legs, Limits, List, Look,
    Marked, Plot, Progress, Reply, Starts, Tide, Trace,
};
use super::When::{self, *};

/// A heading under which actions stand together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Moving the cursor.
    Cursor,
    /// What of the chart is seen, and how.
    Chart,
    /// The points of the route.
    Waypoints,
    /// The line along a shore.
    Tracing,
    /// Bearings of marks.
    Fixing,
    /// The instant that is looked at, and what the water does then.
    Tide,
    /// The starts of a day, and what they are judged by.
    Leaving,
    /// The route as a whole.
    Route,
    /// Questions on the chart, marked.
    Practice,
    /// The program itself.
    Program,
    /// Lines of text and lists.
    Typing,
}

impl Group {
    /// All groups, in the order in which they are shown.
    pub const ALL: [Group; 11] = [
        Group::Cursor,
        Group::Chart,
        Group::Waypoints,
        Group::Tracing,
        Group::Fixing,
        Group::Tide,
        Group::Leaving,
        Group::Route,
        Group::Practice,
        Group::Program,
        Group::Typing,
    ];

    /// The heading.
    pub fn title(self) -> &'static str {
        match self {
            Group::Cursor => "Cursor",
            Group::Chart => "Chart",
            Group::Waypoints => "Waypoints",
            Group::Tracing => "Tracing a shore",
            Group::Fixing => "A fix from bearings",
            Group::Tide => "Time and tide",
            Group::Leaving => "When to leave",
            Group::Route => "Route",
            Group::Practice => "Practice",
            Group::Program => "Program",
            Group::Typing => "Lists and lines of text",
        }
    }
}

/// One row of the table.
#[derive(Debug)]
pub struct Action {
    /// Which action.
    pub act: Act,
    /// Its name, by which the key file calls it.
    pub name: &'static str,
    /// Its heading.
    pub group: Group,
    /// Where its keys count.
    pub contexts: &'static [Context],
    /// Its keys, the one that is shown first.
    pub keys: &'static [&'static str],
    /// What the pointer does for it, or empty.
    pub mouse: &'static str,
    /// When it can be done.
    pub when: When,
    /// The word for it in the line of hints, or empty.
    pub word: &'static str,
    /// One line of help.
    pub help: &'static str,
}

const CHART: &[Context] = &[Look, Plot, Carry, Trace, Anchor, Fix];
/// The chart, also while one practises: what is read off at the cursor is not among it.
const SEA: &[Context] = &[Look, Plot, Carry, Trace, Anchor, Fix, Drill, Marked];
const HANDS: &[Context] = &[Look, Plot];
const ANY_HAND: &[Context] = &[Look, Plot, Trace, Fix];
const TIDE: &[Context] = &[Look, Plot, Carry, Trace, Anchor, Fix, Tide];
const TEXT: &[Context] = &[Jump, Ask, List, Reply];
const LISTS: &[Context] = &[Jump, List, Legs, Help, Limits, Drills, Progress];
const ALL: &[Context] = Context::ALL;

macro_rules! actions {
    ($([$group:ident] $($act:ident $name:literal $contexts:ident $([$($context:ident)*])? ($($key:literal)*) $when:ident $word:literal $help:literal $(mouse $mouse:literal)?;)+)+) => {
        /// Everything that can be done.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Act { $($(#[doc = $help] $act,)+)+ }

        const TABLE: &[Action] = &[$($(Action {
            act: Act::$act,
            name: $name,
            group: Group::$group,
            contexts: contexts!($contexts $([$($context)*])?),
            keys: &[$($key),*],
            mouse: concat!($($mouse)?),
            when: $when,
            word: $word,
            help: $help,
        },)+)+];
    };
}

macro_rules! contexts {
    (IN [$($context:ident)*]) => { &[$($context),*] };
    ($name:ident) => { $name };
}

// act, name, where its keys count, keys, when it can be done, word in the hints, help, mouse
#[rustfmt::skip]
actions! {
[Cursor]
    CursorLeft   "cursor-left"  SEA   ("Left" "h")  Always "left"  "Move the cursor left by one dot of the drawing" mouse "click";
    CursorRight  "cursor-right" SEA   ("Right" "l") Always "right" "Move the cursor right by one dot";
    CursorUp     "cursor-up"    SEA   ("Up" "k")    Always "up"    "Move the cursor up by one dot";
    CursorDown   "cursor-down"  SEA   ("Down" "j")  Always "down"  "Move the cursor down by one dot";
    TenthWest    "tenth-west"   SEA   ("Shift-Left" "H")  Always "" "Move the cursor west by a tenth of a grid square";
    TenthEast    "tenth-east"   SEA   ("Shift-Right" "L") Always "" "Move the cursor east by a tenth of a grid square";
    TenthNorth   "tenth-north"  SEA   ("Shift-Up" "K")    Always "" "Move the cursor north by a tenth of a grid square";
    TenthSouth   "tenth-south"  SEA   ("Shift-Down" "J")  Always "" "Move the cursor south by a tenth of a grid square";
    Jump         "jump"         CHART ("/") Always "go to" "Put the cursor on a grid reference, a latitude and longitude, or a name";

[Chart]
    ZoomIn       "zoom-in"      SEA   ("+" "=") Always "closer"  "Show less ground, larger, about the cursor" mouse "wheel up, about the pointer";
    ZoomOut      "zoom-out"     SEA   ("-" "_") Always "farther" "Show more ground, smaller, about the cursor" mouse "wheel down";
    WholeChart   "whole-chart"  SEA   ("w") Always "whole chart" "Show the whole chart";
    WholeRoute   "whole-route"  CHART ("W") HasPoint "whole route" "Show the whole route";
    Centre       "centre"       SEA   ("c") Always "centre" "Bring the cursor to the middle of the screen";
    PanWest      "pan-west"     SEA   ("Ctrl-Left")  Always "" "Look further west" mouse "drag the chart";
    PanEast      "pan-east"     SEA   ("Ctrl-Right") Always "" "Look further east";
    PanNorth     "pan-north"    CHART ("Ctrl-Up" "PageUp")     Always "" "Look further north";
    PanSouth     "pan-south"    CHART ("Ctrl-Down" "PageDown") Always "" "Look further south";
    Names        "names"        SEA   ("n") Always "names" "Show the names, or hide them";
    GridLines    "grid"         SEA   ("g") Always "grid" "Show the grid lines, or hide them";
    Dots         "dots"         SEA   (".") Always "dots" "Draw with the next set of dots, finer or coarser";
    Figures      "figures"      CHART ("#") Always "figures" "Give grid references in 4, 6, 8 or 10 figures";
    Angles       "angles"       CHART ("%") Always "angles" "Give positions in degrees, with minutes, or with minutes and seconds";

[Waypoints]
    Drop         "drop"         HANDS ("Enter") Editable "drop" "Drop a waypoint at the cursor, at the end of the route" mouse "click, with the pencil in hand";
    Insert       "insert"       HANDS ("i") EditableLeg "insert" "Put a waypoint at the cursor into the leg that is chosen, or the nearest";
    Move         "move"         HANDS ("m") EditablePoint "move" "Take up the waypoint that is under the cursor or chosen, to put it down elsewhere" mouse "drag it, with the pencil in hand";
    PutDown      "put-down"     IN[Carry] ("Enter" "m") Always "put down" "Put the waypoint down at the cursor" mouse "click";
    NudgeWest    "nudge-west"   HANDS ("Alt-Left")  EditablePoint "" "Nudge the waypoint west by one dot";
    NudgeEast    "nudge-east"   HANDS ("Alt-Right") EditablePoint "" "Nudge the waypoint east by one dot";
    NudgeNorth   "nudge-north"  HANDS ("Alt-Up")    EditablePoint "" "Nudge the waypoint north by one dot";
    NudgeSouth   "nudge-south"  HANDS ("Alt-Down")  EditablePoint "" "Nudge the waypoint south by one dot";
    NudgeTenthWest  "nudge-tenth-west"  HANDS ("Alt-Shift-Left" "Alt-H")  EditablePoint "" "Nudge the waypoint west by a tenth of a grid square";
    NudgeTenthEast  "nudge-tenth-east"  HANDS ("Alt-Shift-Right" "Alt-L") EditablePoint "" "Nudge the waypoint east by a tenth of a grid square";
    NudgeTenthNorth "nudge-tenth-north" HANDS ("Alt-Shift-Up" "Alt-K")    EditablePoint "" "Nudge the waypoint north by a tenth of a grid square";
    NudgeTenthSouth "nudge-tenth-south" HANDS ("Alt-Shift-Down" "Alt-J")  EditablePoint "" "Nudge the waypoint south by a tenth of a grid square";
    Delete       "delete"       HANDS ("Backspace" "Delete") EditablePoint "delete" "Delete the waypoint that is under the cursor or chosen";
    Rename       "rename"       HANDS ("r") EditablePoint "rename" "Give the waypoint a name";
    Stop         "stop"         HANDS ("s") EditablePoint "stop" "Set how long the group stops at the waypoint";
    NextPoint    "next-waypoint"     HANDS ("Tab")       HasPoint "next" "Choose the next waypoint and go there" mouse "click it";
    PreviousPoint "previous-waypoint" HANDS ("Shift-Tab") HasPoint "previous" "Choose the waypoint before and go there";
    NextLeg      "next-leg"     HANDS ("]") HasLeg "next leg" "Choose the next leg" mouse "click its row";
    PreviousLeg  "previous-leg" HANDS ("[") HasLeg "leg before" "Choose the leg before";

[Tracing]
    Thread       "trace"        ANY_HAND ("t") Always "trace" "Take the thread in hand to trace a shore, or lay it down";
    Anchor       "anchor"       IN[Trace] ("Enter") Always "anchor" "Put an anchor on the shore that is caught or, off any shore, at the cursor" mouse "click";
    FreePoints   "free-points"  IN[Trace Anchor] ("f") Always "free points" "Leave the shore uncaught, so that anchors are free points, or catch it again";
    OtherWay     "other-way"    IN[Trace] ("o") HasAnchor "other way" "Lead the piece to the cursor, or to the anchor under it, the other way round";
    Round        "round"        IN[Trace] ("O") HasAnchor "round" "Lead the line right round, back to its first anchor" mouse "click the first anchor";
    MoveAnchor   "move-anchor"  IN[Trace] ("m") AimedAnchor "move" "Take up the anchor that is under the cursor or chosen, to put it down elsewhere" mouse "drag it";
    PutAnchor    "put-anchor"   IN[Anchor] ("Enter" "m") Always "put down" "Put the anchor down" mouse "click";
    TakeBack     "take-back"    IN[Trace] ("Backspace") HasAnchor "take back" "Take the last anchor back";
    DeleteAnchor "delete-anchor" IN[Trace] ("Delete") AimedAnchor "delete" "Delete the anchor that is under the cursor or chosen";
    NextAnchor   "next-anchor"  IN[Trace] ("Tab") HasAnchor "next" "Choose the next anchor and go there";
    PreviousAnchor "previous-anchor" IN[Trace] ("Shift-Tab") HasAnchor "previous" "Choose the anchor before and go there";
    StandOff     "stand-off"    IN[Trace] ("s") Always "stand-off" "Lay the line so far off the shore, 0 to 2 km, as a boat goes";
    Smoothing    "smoothing"    IN[Trace] ("S") Always "smoothing" "Smooth the line by a step: from every rock to headland to headland";
    ToRoute      "to-route"     IN[Trace] ("r") EditableTrace "to route" "Make the line a leg of the route, or put back the leg that was taken up";
    Retrace      "retrace"      HANDS ("e") TracedLeg "retrace" "Take up the traced leg that is chosen, to lead it otherwise";
    ClearTrace   "clear-trace"  IN[Look Plot Trace] ("X") HasAnchor "clear" "Clear the line; with the thread in hand it can be taken back";
    Dividers     "dividers"     IN[Look Plot Trace] ("d") HasLine "dividers" "Show what dividers find along the line at each step, and how it changes";

[Fixing]
    Fix          "fix"          ANY_HAND ("F") Always "fix" "Take bearings of marks in hand for a fix, or lay them down";
    TakeBearing  "bearing"      IN[Fix] ("Enter") Always "bearing" "Write the bearing of the mark that is caught or of the cursor's place; a digit begins it" mouse "click it";
    BearingBack  "bearing-back" IN[Fix] ("Backspace") HasBearing "take back" "Take the last bearing back";
    DeleteBearing "delete-bearing" IN[Fix] ("Delete") AimedBearing "delete" "Delete the bearing of the mark that is under the cursor or chosen";
    NextBearing  "next-bearing" IN[Fix] ("Tab") HasBearing "next" "Choose the next mark and go there, and after the last to the fix";
    PreviousBearing "previous-bearing" IN[Fix] ("Shift-Tab") HasBearing "previous" "Choose the mark before and go there";
    BearingError "bearing-error" IN[Fix] ("s") Always "error" "Say how far off each bearing may be, up to 15°";
    FixToRoute   "fix-to-route" IN[Fix] ("r") EditableFix "to route" "Drop a waypoint at the fix, at the end of the route";
    ClearFix     "clear-fix"    IN[Fix] ("X") HasBearing "clear" "Clear the bearings; it can be taken back";

[Tide]
    TimeBack     "time-back"    TIDE ("<") HasTides "earlier" "Look at the water ten minutes earlier" mouse "wheel, over the Water pane or the curve";
    TimeOn       "time-on"      TIDE (">") HasTides "later"   "Look at the water ten minutes later";
    HourBack     "hour-back"    TIDE ("{") HasTides "" "Look at the water an hour earlier";
    HourOn       "hour-on"      TIDE ("}") HasTides "" "Look at the water an hour later";
    PreviousWater "previous-water" TIDE ("(") HasPorts "" "Go to the high or low water before";
    NextWater    "next-water"   TIDE (")") HasPorts "next tide" "Go to the next high or low water";
    NextSlack    "next-slack"   TIDE (";") HasStreams "slack" "Go to the next turn of the stream at the cursor";
    AtDeparture  "at-departure" TIDE ("@") HasDeparture "at departure" "Look at the water at the time of departure";
    Now          "now"          TIDE ("N") HasTides "now" "Look at the water as it is now";
    Play         "play"         TIDE ("P") HasTides "play" "Let the time run by itself, or stop it; any other key of time stops it too";
    TideCurve    "tide-curve"   TIDE ("y") HasPorts "tide" "Show the day's tide as a curve, or close it" mouse "click the Water pane; a click in the curve goes to that time";
    NextPort     "next-port"    TIDE ("Y") HasPorts "port" "Tell the tide of the next port, and after the last of the nearest again";
    StreamArrows "streams"      TIDE ("A") HasStreams "streams" "Show the streams as arrows, or hide them";

[Leaving]
    WhenToLeave  "when-to-leave" ANY_HAND ("E") HasWay "when to leave" "Judge every start of the day by your limits, and take one as the departure";
    StartBack    "start-back"   IN[Starts] ("Left" "h")  Always "earlier" "Look at the start before" mouse "click a cell";
    StartOn      "start-on"     IN[Starts] ("Right" "l") Always "later"   "Look at the next start";
    StartHourBack "start-hour-back" IN[Starts] ("Shift-Left" "PageUp")   Always "" "Look at the start an hour before";
    StartHourOn  "start-hour-on" IN[Starts] ("Shift-Right" "PageDown")   Always "" "Look at the start an hour later";
    DayBack      "day-back"     IN[Starts] ("Up" "k")   Always "day before" "Look at the day before" mouse "wheel";
    DayOn        "day-on"       IN[Starts] ("Down" "j") Always "next day"   "Look at the next day";
    BestStart    "best-start"   IN[Starts] ("b" "Home") Always "best"   "Look at the day's best start";
    LatestStart  "latest-start" IN[Starts] ("e" "End")  Always "latest" "Look at the day's latest start within your limits";
    Fortnight    "fortnight"    IN[Starts] ("f") Always "fortnight" "Show a strip for each day of a fortnight, or of the one day";
    LimitsList   "limits"       IN[Look Plot Trace Fix Starts] ("z") Editable "limits" "Set what a start must keep to: races, light, waits, drift, height of tide, the day";

[Route]
    Pencil       "pencil"       ANY_HAND ("Space") Always "pencil" "Take the pencil in hand, or lay it down";
    Undo         "undo"         ANY_HAND ("u") CanUndo "undo" "Take the last change back";
    Redo         "redo"         ANY_HAND ("U" "Ctrl-R") CanRedo "redo" "Make the change again that was taken back";
    Reverse      "reverse"      HANDS ("R") EditableLeg "reverse" "Turn the route round: last waypoint first";
    Pace         "pace"         ANY_HAND ("p") Editable "pace" "Set the group's pace, in knots or km/h";
    Departure    "departure"    ANY_HAND ("D") Editable "departure" "Set the date and time of departure";
    Wind         "wind"         ANY_HAND ("v") Editable "wind" "Set the wind, which pushes the group by a rule of thumb";
    Steer        "steer"        HANDS ("I") EditableLeg "steer" "Steer the leg that is chosen on one heading, or on its line again";
    Variation    "variation"    ANY_HAND ("V") Editable "variation" "Take the variation from the field model, or from a printed chart";
    Title        "title"        HANDS ("T") Editable "title" "Give the route a title";
    Card         "card"         ANY_HAND ("C") HasPoint "card" "Make the deck card, a PDF beside the route's file";
    LegStrip     "leg-strip"    ANY_HAND ("x") Always "strip" "Unroll the leg that is read along the foot of the chart, or close that strip" mouse "click in it goes to that place";
    LegsTable    "legs"         ANY_HAND ("a") Folded "legs" "Show the table of legs, where the screen has no room for it beside the chart";

[Practice]
    DrillList    "practice"     IN[Look Plot Trace Fix Drill Marked Progress] ("b") Always "practice" "Choose what to be asked, or go on with the practice that was laid down";
    Progress     "progress"     IN[Look Plot Trace Fix Drill Marked Drills] ("B") Always "progress" "Show how practice has gone: over time, by skill, and what recurs";
    Answer       "answer"       IN[Drill] ("Enter") Asked "answer" "Answer: with the cursor where a place is asked for, else in a line" mouse "click where the cursor stands, or a choice";
    WriteAnswer  "write-answer" IN[Drill] ("a") Asked "write" "Write the answer in a line, also where a place is asked for; a digit begins it";
    Hint         "hint"         IN[Drill Reply] ("Tab") Hinted "hint" "Show a hint, or the next one";
    PassOver     "pass-over"    IN[Drill] ("o") Asked "pass" "Pass the question over, and have it explained";
    NextQuestion "next-question" IN[Marked] ("Enter") Always "next" "Go on to the next question, or end what is over";
    ReadUp       "read-up"      IN[Drill Reply Marked] ("PageUp")   Always "" "Go back in the question or its explanation";
    ReadDown     "read-down"    IN[Drill Reply Marked] ("PageDown") More "more" "Go on in the question or its explanation" mouse "wheel over it";

[Program]
    Help         "help"         SEA   ("?" "F1") Always "all" "Show everything that can be done";
    Actions      "actions"      SEA   ("Ctrl-P") Always "actions" "List the actions; type to filter, Enter does the one chosen";
    Back         "back"         ALL ("Esc") Always "back" "Step back: close what is open, put back what is taken up, lay the pencil down";
    Redraw       "redraw"       ALL ("Ctrl-L") Always "" "Draw the whole screen again";
    Suspend      "suspend"      ALL ("Ctrl-Z") JobControl "" "Go back to the shell for now; `fg` returns";
    Quit         "quit"         IN[Look Plot Carry Trace Anchor Fix Help Legs Dividers Tide Starts Limits Drill Marked Drills Progress] ("q") Always "quit" "Leave; everything is saved";
    QuitAnywhere "quit-anywhere" ALL ("Ctrl-Q" "Ctrl-C") Always "" "Leave, from wherever you are; everything is saved";

[Typing]
    Accept       "accept"       IN[Jump Ask List Legs Starts Limits Drills Reply] ("Enter") Always "take it" "Take what is written or chosen" mouse "click it";
    RowUp        "row-up"       LISTS ("Up")   Always "row before" "Go up a row" mouse "wheel";
    RowDown      "row-down"     LISTS ("Down") Always "next row" "Go down a row";
    PageUp       "page-up"      LISTS ("PageUp")   Always "" "Go up a page";
    PageDown     "page-down"    LISTS ("PageDown") Always "" "Go down a page";
    TextLeft     "text-left"    TEXT ("Left")  Always "" "Go left by one character";
    TextRight    "text-right"   TEXT ("Right") Always "" "Go right by one character";
    TextStart    "text-start"   TEXT ("Home" "Ctrl-A") Always "" "Go to the start of the line";
    TextEnd      "text-end"     TEXT ("End" "Ctrl-E")  Always "" "Go to the end of the line";
    EraseLeft    "erase-left"   TEXT ("Backspace") Always "" "Erase the character before";
    EraseRight   "erase-right"  TEXT ("Delete") Always "" "Erase the character behind";
    EraseWord    "erase-word"   TEXT ("Ctrl-W") Always "" "Erase the word before";
    EraseLine    "erase-line"   TEXT ("Ctrl-U") Always "clear" "Erase the whole line";
}

/// All actions, in the order in which they are shown.
pub fn table() -> &'static [Action] {
    TABLE
}

impl Act {
    /// Its row of the table.
    pub fn row(self) -> &'static Action {
        // The table is generated together with the enumeration, in its order.
        &TABLE[self as usize]
    }
}
