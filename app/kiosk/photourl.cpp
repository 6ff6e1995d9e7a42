// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photourl.h"

#include <QUrl>

#include <array>
#include <cmath>

namespace ramplight {

namespace {

using Four = std::array<double, 4>;

QString joined(const Four& numbers)
{
    QStringList texts;
    for (const double number : numbers)
        texts.append(QString::number(number, 'f', 6));
    return texts.join(QLatin1Char(','));
}

std::optional<Four> fourNumbers(QStringView text)
{
    const auto parts = text.split(QLatin1Char(','));
    Four numbers{};
    if (parts.size() != static_cast<qsizetype>(numbers.size()))
        return std::nullopt;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        bool isNumber = false;
        numbers[i] = parts[static_cast<qsizetype>(i)].toDouble(&isNumber);
        if (!isNumber || !std::isfinite(numbers[i]))
            return std::nullopt;
    }
    return numbers;
}

} // namespace

QString photoUrl(const PhotoId& photo, PhotoSize size)
{
    if (photo.isEmpty())
        return {};
    QString name;
    switch (size) {
    case PhotoSize::Card:
        name = QStringLiteral("card");
        break;
    case PhotoSize::Panel:
        name = QStringLiteral("panel");
        break;
    case PhotoSize::Fitted:
        name = QStringLiteral("fitted");
        break;
    case PhotoSize::Full:
        name = QStringLiteral("full");
        break;
    }
    return QStringLiteral("image://photo/%1/%2").arg(name, photo.text);
}

QString laidUrl(const LaidPhoto& laid)
{
    const Similarity& s = laid.fromBefore;
    return QStringLiteral("image://photo/laid/%1/%2/%3")
        .arg(laid.photo.text, joined({s.a, s.b, s.right, s.down}),
             joined({laid.part.x(), laid.part.y(), laid.part.width(), laid.part.height()}));
}

std::optional<LaidPhoto> laidPhoto(QStringView address)
{
    const auto parts = address.split(QLatin1Char('/'));
    if (parts.size() != 3)
        return std::nullopt;
    const auto s = fourNumbers(parts[1]);
    const auto part = fourNumbers(parts[2]);
    if (!s || !part || (*part)[2] <= 0 || (*part)[3] <= 0)
        return std::nullopt;
    return LaidPhoto{{parts[0].toString()},
                     {(*s)[0], (*s)[1], (*s)[2], (*s)[3]},
                     {(*part)[0], (*part)[1], (*part)[2], (*part)[3]}};
}

QString droppedUrl(const QString& path)
{
    return QStringLiteral("image://photo/drop/%1")
        .arg(QString::fromLatin1(QUrl::toPercentEncoding(path)));
}

QString pageUrl(int edition, int page)
{
    return QStringLiteral("image://record/%1/%2").arg(edition).arg(page);
}

QString paperUrl(int edition)
{
    return QStringLiteral("image://paper/%1/0").arg(edition);
}

} // namespace ramplight
