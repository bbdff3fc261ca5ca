//! Strandline's one door to the disk: charts and routes read, written whole or not at all, and locked.
//!
//! Reading gives a value or a [`FileError`] that reads `file:line:column: what is wrong; what
//! would be right`. Writing makes a new file beside the old one, brings it to the disk and puts
//! it in the old one's place in one step, so that a failure leaves the old file whole. Nothing
//! here knows of screens or commands.

mod beside;
mod cache;
mod charts;
mod coasts;
mod crew;
mod error;
mod folders;
mod foreign;
mod lock;
mod mapped;
mod people;
mod ports;
mod profiles;
mod read;
mod results;
mod routes;
mod session;
mod sets;
mod write;

pub use beside::Beside;
pub use charts::{check_chart, import_shore, open_chart, save_chart};
pub use coasts::{
    Imported, OpenedChart, Progress, import_coast, open_coast, rings_that_cross_themselves,
    save_coast,
};
pub use error::{FileError, Place, Why};
pub use folders::{Folders, NoHome};
pub use foreign::{Told, open_foreign, open_foreign_on};
pub use lock::{Holder, Lock, RouteLock};
pub use people::{EXAMPLE as PEOPLE_EXAMPLE, open_people};
pub use ports::{Water, open_port, open_water};
pub use profiles::{keep_trip, open_profiles};
pub use read::{STANDARD_INPUT, Source, open_table};
pub use results::{keep_result, open_record, open_results};
pub use routes::{RouteFile, open_route, save_route};
pub use session::{
    KeptBearing, KeptBearings, KeptClick, KeptQuestion, KeptSet, KeptSitting, KeptTrace, Seen,
    Session, SetAside,
};
pub use sets::{OpenedSet, open_set, sum_of};
pub use write::{Overwrite, can_save, save_all, save_bytes, save_text};
