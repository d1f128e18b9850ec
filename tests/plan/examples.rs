//! The example plans read without problems.

use crate::CATALOGUE;
use loomwright::plan::{examples, read};

#[test]
fn examples_read_without_problems() {
    assert!(examples().len() >= 3);
    for example in examples() {
        let read = read(example.text, &CATALOGUE);
        assert_eq!(read.problems, [], "{}", example.name);
        assert!(!read.plan.loads.is_empty() && !read.plan.runs.is_empty() && !read.plan.job.title.is_empty());
    }
}
