//! The names of grids.

use super::{
    BritishNational, Grid, Hemisphere, Irish, IrishTransverseMercator, Ups, Utm, UtmZone,
    WorldMercator,
};

/// A name that is no grid's.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} names no grid: give EPSG:27700 (British National Grid), EPSG:29903 (Irish Grid), \
     EPSG:2157 (Irish Transverse Mercator), a UTM zone (UTM:30N, EPSG:32601 to 32660 and 32701 \
     to 32760), UPS:N, UPS:S, EPSG:3395 (World Mercator) or MGRS"
)]
pub struct GridNameError(pub String);

impl Grid {
    /// The grid of a name, in capitals or not: an EPSG code (`EPSG:27700`, `EPSG:29903`,
    /// `EPSG:29902`, which is one with it to a metre, `EPSG:2157`, `EPSG:32601` to `32660`,
    /// `EPSG:32701` to `32760`, `EPSG:3395`), a UTM zone (`UTM:30N`), a polar grid (`UPS:N`) or
    /// `MGRS`.
    ///
    /// ```
    /// use nav::Grid;
    /// assert_eq!(Grid::parse("epsg:32630")?.name(), "UTM:30N");
    /// assert!(Grid::parse("UTM:61N").is_err());
    /// # Ok::<(), nav::GridNameError>(())
    /// ```
    ///
    /// # Errors
    /// [`GridNameError`] when the name is none of these.
    pub fn parse(name: &str) -> Result<Grid, GridNameError> {
        let upper = name.trim().to_ascii_uppercase();
        let grid = match upper.split_once(':') {
            None if upper == "MGRS" => Some(Grid::Mgrs),
            Some(("UTM", zone)) => UtmZone::parse(zone).map(Utm::new).map(Grid::Utm),
            Some(("UPS", "N")) => Some(Grid::Ups(Ups::new(Hemisphere::North))),
            Some(("UPS", "S")) => Some(Grid::Ups(Ups::new(Hemisphere::South))),
            Some(("EPSG", code)) => of_epsg(code),
            _ => None,
        };
        grid.ok_or_else(|| GridNameError(name.to_owned()))
    }

    /// The grid's name, which [`Grid::parse`] takes; for a chart's own grid, its title.
    pub fn name(&self) -> String {
        match self {
            Grid::BritishNational(_) => "EPSG:27700".to_owned(),
            Grid::Irish(_) => "EPSG:29903".to_owned(),
            Grid::IrishTransverseMercator(_) => "EPSG:2157".to_owned(),
            Grid::Utm(utm) => format!("UTM:{}", utm.zone()),
            Grid::Ups(ups) => match ups.pole() {
                Hemisphere::North => "UPS:N".to_owned(),
                Hemisphere::South => "UPS:S".to_owned(),
            },
            Grid::Mgrs => "MGRS".to_owned(),
            Grid::WorldMercator(_) => "EPSG:3395".to_owned(),
            Grid::Chart(chart) => chart.title().to_owned(),
        }
    }

    /// What the grid is called in words: `British National Grid`, `UTM zone 30N`.
    pub fn title(&self) -> String {
        match self {
            Grid::BritishNational(_) => "British National Grid".to_owned(),
            Grid::Irish(_) => "Irish Grid".to_owned(),
            Grid::IrishTransverseMercator(_) => "Irish Transverse Mercator".to_owned(),
            Grid::Utm(utm) => format!("UTM zone {}", utm.zone()),
            Grid::Ups(ups) => match ups.pole() {
                Hemisphere::North => "UPS north".to_owned(),
                Hemisphere::South => "UPS south".to_owned(),
            },
            Grid::Mgrs => "MGRS".to_owned(),
            Grid::WorldMercator(_) => "World Mercator".to_owned(),
            Grid::Chart(chart) => chart.title().to_owned(),
        }
    }
}

fn of_epsg(code: &str) -> Option<Grid> {
    match code.parse().ok()? {
        27700 => Some(Grid::BritishNational(BritishNational::new())),
        29902 | 29903 => Some(Grid::Irish(Irish::new())),
        3395 => Some(Grid::WorldMercator(WorldMercator::new())),
        2157 => Some(Grid::IrishTransverseMercator(IrishTransverseMercator::new())),
        code => UtmZone::from_epsg(code).map(Utm::new).map(Grid::Utm),
    }
}
