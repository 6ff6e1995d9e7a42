// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight {

/// What is wrong with a file that somebody wrote, where, and what was expected there.
struct FileFault
{
    int line = 0;     ///< counted from 1; 0: the fault is not at a place in the file
    int column = 0;   ///< characters, counted from 1
    QString path;     ///< JSON pointer (RFC 6901) of the value, empty for the whole file
    QString expected; ///< what was expected, with what was found
    QString words;    ///< all of it as one line, ready to be shown
    friend bool operator==(const FileFault&, const FileFault&) = default;
};

/// A JSON pointer as people read it: "/findings/2/place" is "findings, entry 3, place".
[[nodiscard]] QString pathInWords(const QString& pointer);
/// The line that is shown: "line 12, column 7: findings, entry 3, place: ...".
[[nodiscard]] QString faultInWords(const FileFault& fault);

} // namespace ramplight
