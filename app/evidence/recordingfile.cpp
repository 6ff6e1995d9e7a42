// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/recordingfile.h"

#include <QFile>
#include <QFileInfo>
#include <QtEndian>

#include <array>
#include <optional>

namespace ramplight {

namespace {

// A damaged file must not keep us: real ones have a few dozen boxes before the matrix.
constexpr int mostBoxes = 2'000;

/// A box of the file, its content from `from` up to `to`.
struct Box
{
    QByteArray name;
    qint64 from = 0;
    qint64 to = 0;
};

std::optional<Box> boxAt(QFile& file, qint64 at, qint64 end)
{
    if (at + 8 > end || !file.seek(at))
        return {};
    const QByteArray head = file.read(16);
    if (head.size() < 8)
        return {};
    qint64 size = qFromBigEndian<quint32>(head.constData());
    qint64 content = 8;
    if (size == 1 && head.size() == 16) {
        size = qFromBigEndian<qint64>(head.constData() + 8);
        content = 16;
    } else if (size == 0) {
        size = end - at;
    }
    if (size < content || size > end - at)
        return {};
    return Box{head.mid(4, 4), at + content, at + size};
}

/// Of the matrix of a track header; none where the track has no picture.
std::optional<int> turnsOf(QFile& file, const Box& header)
{
    if (!file.seek(header.from))
        return {};
    const QByteArray bytes = file.read(96);
    const qsizetype matrix = bytes.startsWith('\1') ? 52 : 40;
    if (bytes.size() < matrix + 44)
        return {};
    const auto number = [&](qsizetype at) {
        return qFromBigEndian<qint32>(bytes.constData() + matrix + at);
    };
    if (number(36) == 0)
        return {}; // no width: a track of sound
    // Behind each pair stands a third number of the perspective.
    const std::array<qint32, 4> stands{number(0), number(4), number(12), number(16)};
    constexpr qint32 one = 1 << 16;
    const std::array<std::array<qint32, 4>, 4> turns{
        {{one, 0, 0, one}, {0, one, -one, 0}, {-one, 0, 0, -one}, {0, -one, one, 0}}};
    for (std::size_t turn = 0; turn < turns.size(); ++turn)
        if (stands == turns.at(turn))
            return static_cast<int>(turn);
    return 0;
}

int quarterTurns(QFile& file)
{
    qint64 at = 0;
    qint64 end = file.size();
    for (int boxes = 0; boxes < mostBoxes; ++boxes) {
        const auto box = boxAt(file, at, end);
        if (!box)
            return 0;
        at = box->to;
        if (box->name == "tkhd") {
            if (const auto turns = turnsOf(file, *box))
                return *turns;
        } else if (box->name == "moov" || box->name == "trak") {
            // Everything in it, then what follows it, up to the same end.
            at = box->from;
        }
    }
    return 0;
}

} // namespace

tl::expected<RecordingFile, RecordingFault> lookAtRecording(const QString& path)
{
    const QFileInfo info(path);
    if (!info.isFile())
        return tl::unexpected(RecordingFault::Missing);
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(file.error() == QFileDevice::PermissionsError
                                  ? RecordingFault::NotPermitted
                                  : RecordingFault::CannotRead);
    const QByteArray first = file.read(12);
    if (first.isEmpty())
        return tl::unexpected(file.error() == QFileDevice::NoError ? RecordingFault::Empty
                                                                   : RecordingFault::CannotRead);
    const QByteArray kind = first.mid(4, 4);
    const bool boxes = kind == "ftyp" || kind == "moov" || kind == "mdat" || kind == "wide";
    return RecordingFile{info.size(), info.lastModified(), boxes ? quarterTurns(file) : 0};
}

} // namespace ramplight
