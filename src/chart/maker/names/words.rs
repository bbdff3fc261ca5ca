//! The words that a name can be made with; `*` stands for the root, `~` for the root joined on.

use crate::maker::wishes::Character;

pub(in crate::maker) const SETTLEMENT: &[&str] = &["~haven", "Port *", "~wick", "* Quay", "~stead"];
pub(in crate::maker) const ISLAND: &[&str] = &["*", "*", "~ay", "* Island", "~ey"];
pub(in crate::maker) const ISLET: &[&str] = &["* Holm", "* Isle", "Little *", "~ay", "* Holm"];
pub(in crate::maker) const SOUND: &[&str] = &["Sound of *", "* Sound", "* Roads", "* Deeps"];
pub(in crate::maker) const HEADLAND: &[&str] =
    &["* Head", "* Ness", "* Point", "Point of *", "* Snout"];
pub(in crate::maker) const BAY: &[&str] = &["* Bay", "* Bight", "* Cove", "Bay of *", "* Pool"];
pub(in crate::maker) const INLET: &[&str] = &["* Water", "* Voe", "* Reach", "* Inlet", "* Creek"];
pub(in crate::maker) const NARROWS: &[&str] = &["* Narrows", "* Gut", "The * Gates", "* Sluice"];
pub(in crate::maker) const SKERRY: &[&str] =
    &["* Skerry", "* Skerries", "* Rock", "* Stacks", "* Ledge", "* Baas"];
pub(in crate::maker) const SHOAL: &[&str] = &["* Bank", "* Shoal", "* Ground", "* Bar"];
pub(in crate::maker) const SUNKEN: &[&str] = &["* Rock", "* Baa", "* Breaker", "* Ledge"];
pub(in crate::maker) const HILL: &[&str] = &["* Fell", "* Hill", "* Cap", "* Law", "* Pike"];
pub(in crate::maker) const SAND: &[&str] = &["* Strand", "* Sands", "* Beach"];
pub(in crate::maker) const SHINGLE: &[&str] = &["* Ayre", "* Shingle", "* Stones"];
pub(in crate::maker) const MUD: &[&str] = &["* Flats", "* Ooze", "* Saltings"];
pub(in crate::maker) const COVE: &[&str] = &["* Geo", "* Gully", "* Landing"];
pub(in crate::maker) const SLIP: &[&str] = &["* slip"];
pub(in crate::maker) const RACE: &[&str] = &["* Race", "* Overfalls", "* Tumble"];

const LOW_HILL: &[&str] = &["* Hill", "* Down", "* Rise", "* Mound"];

/// The words that differ between coasts.
#[derive(Debug)]
pub(in crate::maker) struct Words {
    pub(in crate::maker) title: &'static [&'static str],
    pub(in crate::maker) island: &'static [&'static str],
    pub(in crate::maker) sound: &'static [&'static str],
    pub(in crate::maker) headland: &'static [&'static str],
    pub(in crate::maker) inlet: &'static [&'static str],
    pub(in crate::maker) island_inlet: &'static [&'static str],
    pub(in crate::maker) narrows: &'static [&'static str],
    pub(in crate::maker) hill: &'static [&'static str],
}

const ARCHIPELAGO: Words = Words {
    title: &["The * Isles"],
    island: ISLAND,
    sound: SOUND,
    headland: HEADLAND,
    inlet: INLET,
    island_inlet: INLET,
    narrows: NARROWS,
    hill: HILL,
};

const GUARD: Words = Words {
    title: &["The * Guard", "The * Skerries"],
    sound: &["* Lead", "* Sound", "* Roads", "Sound of *"],
    inlet: &["* Water", "* Arm", "* Voe", "* Inlet"],
    narrows: &["* Narrows", "* Gut", "* Sluice"],
    ..ARCHIPELAGO
};

const LOCHS: Words = Words {
    title: &["The * Lochs", "The Lochs of *"],
    sound: &["Sound of *", "* Sound", "* Roads"],
    inlet: &["Loch *", "Loch *", "* Water", "* Arm"],
    narrows: &["* Narrows", "* Gut", "The * Gates"],
    ..ARCHIPELAGO
};

const BARRIER: Words = Words {
    title: &["The * Lagoon", "The * Shore"],
    island: &["*", "~ey", "* Island", "* Dunes"],
    sound: &["* Deep", "* Roads", "* Deeps"],
    headland: &["* Point", "* Spit", "* Hook", "* Ness"],
    inlet: &["* Creek", "* Fleet", "* Pool", "* Creek"],
    island_inlet: &["* Creek", "* Pool"],
    narrows: &["* Gat", "* Inlet", "* Gat", "* Gut"],
    hill: LOW_HILL,
};

const WALL: Words = Words {
    title: &["The * Cliffs", "The * Coast"],
    sound: &["* Roads", "* Bay", "* Deeps"],
    headland: &["* Head", "* Nose", "* Bluff", "Point of *", "* Snout"],
    inlet: &["* Mouth", "* Hole", "* Inlet"],
    ..ARCHIPELAGO
};

const RIVER: Words = Words {
    title: &["The * Estuary", "The * Mouth"],
    sound: &["* Deep", "* Channel", "* Roads"],
    headland: &["* Point", "* Ness", "* Hook"],
    inlet: &["* Creek", "* Reach", "* Creek", "* Water"],
    narrows: &["* Narrows", "* Gut", "* Reach"],
    hill: LOW_HILL,
    ..ARCHIPELAGO
};

impl Words {
    /// The words of a coast of a character.
    pub(in crate::maker) fn of(character: Character) -> &'static Words {
        match character {
            Character::Mixed => &ARCHIPELAGO,
            Character::Skerries => &GUARD,
            Character::SeaLochs => &LOCHS,
            Character::Lagoon => &BARRIER,
            Character::Cliffs => &WALL,
            Character::Estuary => &RIVER,
        }
    }
}

/// Every form that any name can have.
#[cfg(test)]
pub(super) fn all_forms() -> std::collections::BTreeSet<&'static str> {
    let of = |character: &Character| {
        let Words { title, island, sound, headland, inlet, island_inlet, narrows, hill } =
            Words::of(*character);
        [title, island, sound, headland, inlet, island_inlet, narrows, hill]
    };
    let common = [
        &SETTLEMENT,
        &ISLET,
        &BAY,
        &SKERRY,
        &SHOAL,
        &SUNKEN,
        &HILL,
        &SAND,
        &SHINGLE,
        &MUD,
        &COVE,
        &SLIP,
        &RACE,
    ];
    let more =
        ["Wreck of the *", "* approach", "* light", "* beacon", "* buoy", "* cairn", "* chapel"];
    let coasts = Character::ALL.iter().flat_map(of);
    coasts.chain(common).flat_map(|forms| forms.iter().copied()).chain(more).collect()
}
