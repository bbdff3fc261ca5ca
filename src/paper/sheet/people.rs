//! Who goes, in which boats, with what.

use std::fmt::{self, Display, Formatter};

/// People, boats and kit, as far as they are known. What is empty is left for a pen.
///
/// It comes from a file of the user's own and goes nowhere but onto the sheet: no route has it, nor has a card.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct People {
    /// What the group is called.
    pub group: String,
    /// The boats, with who is in them.
    pub boats: Vec<Boat>,
    /// What is carried.
    pub kit: Vec<Carried>,
    /// How used to such days the group is.
    pub experience: String,
    /// What a rescuer should know of anybody's health.
    pub medical: String,
    /// The contact ashore.
    pub contact: Contact,
    /// What they came in, and where it stands.
    pub vehicles: Vec<Vehicle>,
}

/// A boat.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Boat {
    /// What kind: `single sea kayak`.
    pub kind: String,
    /// Its colours: `yellow deck, white hull`.
    pub colours: String,
    /// Who is in it.
    pub crew: Vec<Person>,
}

/// Somebody in a boat.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Person {
    /// The name.
    pub name: String,
    /// The colours of what is worn.
    pub clothing: String,
    /// The telephone that is carried.
    pub phone: String,
    /// A word about them.
    pub note: String,
}

/// Something carried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Carried {
    /// What.
    pub what: Kit,
    /// How many, of which kind, with which identity: or empty.
    pub details: String,
}

/// The contact ashore.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Contact {
    /// The name.
    pub name: String,
    /// The telephone.
    pub phone: String,
    /// Where they are that day.
    pub place: String,
}

/// A vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Vehicle {
    /// What it is, with its registration.
    pub what: String,
    /// Where it is parked.
    pub parked: String,
}

/// What a search asks about first: what calls, what shows, what keeps alive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kit {
    /// A radio. Channel 16 is the international one for distress and calling (ITU Radio Regulations, appendix 18).
    Radio,
    /// A distress beacon.
    Beacon,
    /// Flares or smoke.
    Flares,
    /// A telephone.
    Phone,
    /// Lights.
    Lights,
    /// A tow line.
    TowLine,
    /// A spare paddle.
    SparePaddle,
    /// A first aid kit.
    FirstAid,
    /// A shelter and dry clothes.
    Shelter,
}

impl Kit {
    /// All of it, in the order on the sheet.
    pub const ALL: [Kit; 9] = [
        Kit::Radio,
        Kit::Beacon,
        Kit::Flares,
        Kit::Phone,
        Kit::Lights,
        Kit::TowLine,
        Kit::SparePaddle,
        Kit::FirstAid,
        Kit::Shelter,
    ];
}

impl Display for Kit {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Kit::Radio => "VHF radio (distress and calling: channel 16)",
            Kit::Beacon => "distress beacon",
            Kit::Flares => "flares or smoke",
            Kit::Phone => "telephone",
            Kit::Lights => "lights",
            Kit::TowLine => "tow line",
            Kit::SparePaddle => "spare paddle",
            Kit::FirstAid => "first aid",
            Kit::Shelter => "shelter, dry clothes",
        })
    }
}

impl People {
    /// The most boats, and the most people in one.
    pub const MOST_BOATS: usize = 60;
    /// The most people in a boat.
    pub const MOST_CREW: usize = 4;
    /// The most vehicles.
    pub const MOST_VEHICLES: usize = 12;

    /// How many people there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.boats.iter().map(|boat| boat.crew.len()).sum()
    }

    /// Something that is carried, if it is.
    pub(super) fn carried(&self, what: Kit) -> Option<&Carried> {
        self.kit.iter().find(|carried| carried.what == what)
    }
}
