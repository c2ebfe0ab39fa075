//! Reading what people paste: tables from spreadsheets, text from PDF pages, our own CSV files.

mod chart;
mod chart_table;
mod chart_words;
mod grid;

pub use chart::{ChartAnswers, ChartImport, Choice, Note, Question, QuestionId, read_chart};
