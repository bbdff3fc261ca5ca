//! The README's table of keys is the table of actions.

use std::{env, fs};

const README: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/README.md");
const BEGIN: &str = "<!-- keys: written from src/tui/action/table.rs -->\n";
const END: &str = "<!-- end of keys -->\n";

#[test]
fn the_readme_has_every_key() {
    let readme = fs::read_to_string(README).unwrap();
    let (before, rest) = readme.split_once(BEGIN).unwrap();
    let (table, after) = rest.split_once(END).unwrap();
    let current = format!("\n{}\n", tui::action::key_table_markdown());
    if env::var_os("WRITE_README").is_some() {
        fs::write(README, format!("{before}{BEGIN}{current}{END}{after}")).unwrap();
    } else {
        assert_eq!(table, current, "the README is behind; run the tests with WRITE_README=1");
    }
}
