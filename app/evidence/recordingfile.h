// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QDateTime>

#include <tl/expected.hpp>

namespace ramplight {

enum class RecordingFault {
    Missing,      ///< no file there
    Empty,        ///< nothing in it
    NotPermitted, ///< the system does not let the program read it
    CannotRead,   ///< reading failed
};

/// What is known of a recording before it is played.
struct RecordingFile
{
    qint64 bytes = 0;
    QDateTime modified;
    /// To the right, until the picture stands upright: a telephone held upright writes its frames
    /// lying and says so in the track's matrix. Zero where nothing is said.
    int quarterTurns = 0;

    friend bool operator==(const RecordingFile&, const RecordingFile&) = default;
};

/// Opens the file and reads its first bytes and, of MP4 and QuickTime files (ISO/IEC 14496-12,
/// 8.3.2), how the picture stands. Blocks for the disk; no state, any thread.
[[nodiscard]] tl::expected<RecordingFile, RecordingFault> lookAtRecording(const QString& path);

} // namespace ramplight
