//! What the system says of the memory of a benchmark.

use std::fs;

/// A line of what the system says of this process, in megabytes.
pub(crate) fn tell(what: &str, line: &str, goal: &str) {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let found = status.lines().find_map(|text| text.strip_prefix(line));
    let kilobytes = found.and_then(|text| text.trim().trim_end_matches(" kB").parse::<u64>().ok());
    match kilobytes {
        Some(kilobytes) => println!("{what}: {} MB (goal {goal})", kilobytes >> 10),
        None => println!("{what}: this system does not say"),
    }
}
