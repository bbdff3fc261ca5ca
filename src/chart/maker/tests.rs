use super::*;

#[test]
fn the_built_in_chart_is_what_the_maker_makes() {
    let made = crate::format::write(&make(crate::practice::SEED, &Wishes::default()).unwrap());
    assert!(made == crate::practice::TEXT, "maps/practice.ron is not what the maker makes now");
}

/// Run after the maker has changed: `cargo test -p chart -- --ignored write_the_built_in_chart`.
#[test]
#[ignore = "writes maps/practice.ron"]
fn write_the_built_in_chart() {
    let made = make(crate::practice::SEED, &Wishes::default()).unwrap();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../maps/practice.ron");
    std::fs::write(path, crate::format::write(&made)).unwrap();
}
