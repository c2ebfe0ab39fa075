//! Reads a plan file and prints its assessment as JSON.
fn main() {}
