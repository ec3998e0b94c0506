//! Days, times and spans as a person reads them, in the zone of the yard.

use chrono::{DateTime, Locale, NaiveDate, TimeZone as _};
use chrono_tz::Tz;

use super::{Language, Words};

/// How a moment is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Clock {
    /// The time alone, where the day is clear.
    Time,
    /// Day and time.
    DayAndTime,
    /// The day alone.
    Day,
}

impl Words {
    fn locale(self) -> Locale {
        match self.language {
            Language::English => Locale::en_US,
            Language::Spanish => Locale::es_US,
        }
    }

    fn at(self, utc_ms: i64) -> Option<DateTime<Tz>> {
        self.zone.timestamp_millis_opt(utc_ms).single()
    }

    /// A moment, in the zone of these words, with the zone's abbreviation where a time is given.
    pub(crate) fn moment(self, utc_ms: i64, clock: Clock) -> String {
        let Some(at) = self.at(utc_ms) else {
            return self.t("frame-no-date");
        };
        let format = match (clock, self.language) {
            (Clock::Time, Language::English) => "%-I:%M %p %Z",
            (Clock::Time, Language::Spanish) => "%-H:%M %Z",
            (Clock::DayAndTime, Language::English) => "%a, %b %-d, %Y, %-I:%M %p %Z",
            (Clock::DayAndTime, Language::Spanish) => "%a %-d %b %Y, %-H:%M %Z",
            (Clock::Day, Language::English) => "%a, %b %-d, %Y",
            (Clock::Day, Language::Spanish) => "%a %-d %b %Y",
        };
        at.format_localized(format, self.locale()).to_string()
    }

    /// A moment as a person most likely wants it: the time alone on the day of `now`.
    pub(crate) fn moment_near(self, utc_ms: i64, now_utc_ms: i64) -> String {
        let same =
            self.at(utc_ms).map(|t| t.date_naive()) == self.at(now_utc_ms).map(|t| t.date_naive());
        self.moment(utc_ms, if same { Clock::Time } else { Clock::DayAndTime })
    }

    /// A day.
    pub(crate) fn day(self, day: NaiveDate) -> String {
        let format = match self.language {
            Language::English => "%a, %b %-d, %Y",
            Language::Spanish => "%a %-d %b %Y",
        };
        day.format_localized(format, self.locale()).to_string()
    }

    /// The day of a moment, in the zone of these words.
    pub(crate) fn day_of(self, utc_ms: i64) -> NaiveDate {
        self.at(utc_ms).map(|t| t.date_naive()).unwrap_or_default()
    }

    /// How long ago a moment was, or how far ahead it lies.
    pub(crate) fn ago(self, utc_ms: i64, now_utc_ms: i64) -> String {
        let ms = now_utc_ms.saturating_sub(utc_ms);
        let span = self.span(ms.saturating_abs());
        let key = if ms >= 0 { "frame-ago" } else { "frame-ahead" };
        self.t_with(key, &[("span", span.into())])
    }

    /// A span of time, to the minute below two hours, to the hour below two days.
    pub(crate) fn span(self, ms: i64) -> String {
        let minutes = ms / 60_000;
        let (key, n) = if minutes < 120 {
            ("frame-minutes", minutes)
        } else if minutes < 48 * 60 {
            ("frame-hours", minutes / 60)
        } else {
            ("frame-days", minutes / (24 * 60))
        };
        self.t_with(key, &[("n", n.into())])
    }
}
