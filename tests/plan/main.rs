//! Plan files: reading with all problems, editing without loss, saving without fear.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod editing;
mod examples;
mod reading;
mod saving;

use loomwright::catalogue::Catalogue;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| Catalogue::embedded().expect("the profiles are sound"));
