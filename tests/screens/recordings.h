// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QColor>
#include <QSize>
#include <QString>

namespace ramplight::test {

/// A film whose every second has a colour of its own, with a white corner at the upper left.
struct Film
{
    QSize size{320, 240};
    int seconds = 20;
    int quarterTurns = 0; ///< said in the track's matrix, as telephones do
    bool sound = false;   ///< with a track of it
    bool spoilt = false;  ///< a whole file whose pictures are noise
};

constexpr int filmFps = 5;

[[nodiscard]] QColor filmColour(int second);
/// QuickTime with Motion JPEG (and PCM). False when it cannot be written.
[[nodiscard]] bool writeFilm(const QString& path, const Film& film = {});
/// A WAV file with a tone.
[[nodiscard]] bool writeTone(const QString& path, int seconds);

} // namespace ramplight::test
