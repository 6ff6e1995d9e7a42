// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordings.h"

#include <QBuffer>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QtEndian>

#include <array>
#include <cmath>
#include <vector>

namespace ramplight::test {

namespace {

constexpr quint32 toneRate = 8000;

QByteArray big(quint32 value)
{
    QByteArray bytes(4, '\0');
    qToBigEndian(value, bytes.data());
    return bytes;
}

QByteArray big16(quint16 value)
{
    QByteArray bytes(2, '\0');
    qToBigEndian(value, bytes.data());
    return bytes;
}

QByteArray little(quint32 value)
{
    QByteArray bytes(4, '\0');
    qToLittleEndian(value, bytes.data());
    return bytes;
}

QByteArray zeros(qsizetype count)
{
    return QByteArray(count, '\0');
}

QByteArray box(const char* name, const QByteArray& content)
{
    return big(static_cast<quint32>(content.size() + 8)) + name + content;
}

QByteArray table(const char* name, const QByteArray& content, quint32 flags = 0)
{
    return box(name, big(flags) + content);
}

QByteArray tone(int seconds)
{
    QByteArray samples;
    for (quint32 i = 0; i < toneRate * static_cast<quint32>(seconds); ++i) {
        std::array<char, 2> sample{};
        qToLittleEndian(static_cast<qint16>(6000 * std::sin(0.3 * i)), sample.data());
        samples.append(sample.data(), 2);
    }
    return samples;
}

QByteArray pictureOf(const Film& film, int second)
{
    QImage image(film.size, QImage::Format_RGB32);
    image.fill(filmColour(second));
    QPainter painter(&image);
    painter.fillRect(0, 0, film.size.width() / 4, film.size.height() / 4, Qt::white);
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPG", 95);
    if (film.spoilt)
        bytes.fill('\x55');
    return bytes;
}

QByteArray matrix(int quarterTurns)
{
    constexpr std::array<std::array<int, 4>, 4> turns{
        {{1, 0, 0, 1}, {0, 1, -1, 0}, {-1, 0, 0, -1}, {0, -1, 1, 0}}};
    const auto& turn = turns.at(static_cast<std::size_t>(quarterTurns));
    const auto fixed = [](int number) { return big(static_cast<quint32>(number * 65536)); };
    return fixed(turn[0]) + fixed(turn[1]) + big(0) + fixed(turn[2]) + fixed(turn[3]) + big(0) +
           big(0) + big(0) + big(1U << 30U);
}

/// What tells one track from another.
struct Track
{
    quint32 id = 1;
    QSize size = {};
    QByteArray matrix = {};
    quint32 unitsPerSecond = filmFps;
    quint32 units = 0;
    const char* handler = "vide";
    QByteArray header = {}; ///< of this kind of media
    QByteArray format = {}; ///< how a sample is kept
    quint32 bytesOfEach = 0;
    QByteArray sizes = {}; ///< of the samples, where they differ
    quint32 perChunk = 1;
    std::vector<quint32> chunks = {}; ///< where they lie
};

QByteArray trackBox(const Track& track, quint32 milliseconds)
{
    QByteArray offsets;
    for (const quint32 chunk : track.chunks)
        offsets += big(chunk);
    const QByteArray samples =
        table("stsd", big(1) + track.format) + table("stts", big(1) + big(track.units) + big(1)) +
        table("stsz", big(track.bytesOfEach) + big(track.units) + track.sizes) +
        table("stsc", big(1) + big(1) + big(track.perChunk) + big(1)) +
        table("stco", big(static_cast<quint32>(track.chunks.size())) + offsets);
    const QByteArray head = zeros(8) + big(track.id) + big(0) + big(milliseconds) + zeros(16) +
                            track.matrix + big(static_cast<quint32>(track.size.width()) << 16U) +
                            big(static_cast<quint32>(track.size.height()) << 16U);
    return box(
        "trak",
        table("tkhd", head, 7) +
            box("mdia",
                table("mdhd", zeros(8) + big(track.unitsPerSecond) + big(track.units) + zeros(4)) +
                    table("hdlr", QByteArray("mhlr") + track.handler + zeros(13)) +
                    box("minf", track.header +
                                    box("dinf", table("dref", big(1) + table("alis", {}, 1))) +
                                    box("stbl", samples))));
}

bool write(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

} // namespace

QColor filmColour(int second)
{
    return QColor::fromHsv(second * 18 % 360, 220, 200);
}

bool writeFilm(const QString& path, const Film& film)
{
    const auto milliseconds = static_cast<quint32>(film.seconds * 1000);
    const QByteArray kind = box("ftyp", "qt  " + big(512) + "qt  ");
    auto at = static_cast<quint32>(kind.size() + 8);
    QByteArray media;

    Track pictures{.size = film.size, .matrix = matrix(film.quarterTurns)};
    for (int second = 0; second < film.seconds; ++second) {
        const QByteArray picture = pictureOf(film, second);
        for (int i = 0; i < filmFps; ++i) {
            pictures.sizes += big(static_cast<quint32>(picture.size()));
            pictures.chunks.push_back(at);
            at += static_cast<quint32>(picture.size());
            media += picture;
        }
    }
    pictures.units = static_cast<quint32>(pictures.chunks.size());
    pictures.header = table("vmhd", zeros(8), 1);
    pictures.format =
        box("jpeg", zeros(6) + big16(1) + zeros(12) + big(512) +
                        big16(static_cast<quint16>(film.size.width())) +
                        big16(static_cast<quint16>(film.size.height())) + big(72U << 16U) +
                        big(72U << 16U) + big(0) + big16(1) + zeros(32) + big16(24) + big16(65535));
    QByteArray tracks = trackBox(pictures, milliseconds);

    if (film.sound) {
        const QByteArray samples = tone(film.seconds);
        Track sound{.id = 2, .matrix = matrix(0), .unitsPerSecond = toneRate, .handler = "soun"};
        sound.units = static_cast<quint32>(samples.size() / 2);
        sound.header = table("smhd", zeros(4));
        sound.format = box("sowt", zeros(6) + big16(1) + zeros(8) + big16(1) + big16(16) +
                                       zeros(4) + big(toneRate << 16U));
        sound.bytesOfEach = 2;
        sound.perChunk = toneRate;
        for (int second = 0; second < film.seconds; ++second)
            sound.chunks.push_back(at + 2 * toneRate * static_cast<quint32>(second));
        media += samples;
        tracks += trackBox(sound, milliseconds);
    }
    const QByteArray head = zeros(8) + big(1000) + big(milliseconds) + big(1U << 16U) + big16(256) +
                            zeros(10) + matrix(0) + zeros(24) + big(3);
    return write(path, kind + box("mdat", media) + box("moov", table("mvhd", head) + tracks));
}

bool writeTone(const QString& path, int seconds)
{
    const QByteArray samples = tone(seconds);
    const QByteArray format =
        little(1U | 1U << 16U) + little(toneRate) + little(2 * toneRate) + little(2U | 16U << 16U);
    const QByteArray body = "WAVEfmt " + little(16) + format + "data" +
                            little(static_cast<quint32>(samples.size())) + samples;
    return write(path, "RIFF" + little(static_cast<quint32>(body.size())) + body);
}

} // namespace ramplight::test
