//! In which form is an answer wanted?

use clap::Args;

/// Text or JSON.
#[derive(Args, Clone, Copy, Debug, Default)]
pub struct Form {
    /// JSON for scripts; `"version": 3` names its shape, `schema --output` explains it.
    #[arg(long)]
    pub json: bool,
}

/// How an answer is told.
#[derive(Args, Clone, Copy, Debug, Default)]
pub struct Told {
    /// Also show how each number came about.
    #[arg(long)]
    pub workings: bool,
    #[command(flatten)]
    pub form: Form,
}
