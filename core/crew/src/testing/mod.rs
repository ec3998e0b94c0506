//! For tests and benches only: phones with a log in memory, and a line between two of them that
//! breaks where told.

mod line;
mod memory_log;
mod phone;

pub use line::{Ends, Line, Traffic};
pub use memory_log::MemoryLog;
pub use phone::Phone;

/// Bytes as hexadecimal, 32 to a line, for snapshots.
pub fn in_lines(bytes: &[u8]) -> String {
    let lines: Vec<String> = bytes
        .chunks(32)
        .map(|c| data_encoding::HEXLOWER.encode(c))
        .collect();
    lines.join("\n")
}
