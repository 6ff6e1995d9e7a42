// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QImage>
#include <QSize>

// Pictures for the tests of this folder, drawn or put together byte by byte.
namespace samples {

/// Something to look at: a painted panel with seams, a lamp and a scratch, different for each seed.
QImage panel(QSize size, int seed = 1);
/// Red, green over blue, yellow: tells every turn and mirror from the others.
QImage quadrants(QSize size);

QByteArray jpeg(const QImage& image, int quality = 90, bool progressive = false);
QByteArray png(const QImage& image);

/// A JPEG with an application or comment segment put behind its start.
QByteArray withSegment(const QByteArray& jpeg, quint8 marker, const QByteArray& payload);
/// The payload of an EXIF segment that holds the orientation (1 to 8) alone.
QByteArray exifOrientation(int orientation);

/// The same with a position on the earth, as telephones write it.
QByteArray exifWithPosition(int orientation);

/// A PNG chunk with its check sum.
QByteArray chunk(const char* type, const QByteArray& data);
/// A PNG with a chunk put behind its header.
QByteArray withChunk(const QByteArray& png, const QByteArray& chunk);
/// The first 33 bytes of a PNG that says it is that large.
QByteArray pngHeader(quint32 width, quint32 height, quint8 bitDepth = 8, quint8 colourType = 2);

/// A JPEG of headers only: start, frame, the given number of scans with a few bytes, end.
QByteArray jpegShell(quint16 width, quint16 height, int components = 3, int precision = 8,
                     quint8 frameMarker = 0xC0, int scans = 1);

} // namespace samples
