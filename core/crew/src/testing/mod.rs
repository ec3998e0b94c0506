//! For tests and benches only: a seeded environment, a log in memory, and a line between two
//! phones that breaks where told.

mod line;
mod memory_log;
mod phone;

pub use line::{Ends, Line, Traffic};
pub use memory_log::MemoryLog;
pub use phone::{Phone, TestEnv};
