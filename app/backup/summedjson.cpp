// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/summedjson.h"

#include "evidence/durablefile.h"

#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>

namespace ramplight {

namespace {

constexpr QLatin1StringView sumKey{"sum"};

/// Of everything else, in the order in which it is written.
QString sumOf(QJsonObject object)
{
    object.remove(sumKey);
    const QByteArray text = QJsonDocument(object).toJson(QJsonDocument::Compact);
    return QString::fromLatin1(QCryptographicHash::hash(text, QCryptographicHash::Sha256).toHex());
}

} // namespace

QByteArray summed(QJsonObject object)
{
    object.insert(sumKey, sumOf(object));
    return QJsonDocument(object).toJson(QJsonDocument::Indented);
}

tl::expected<QJsonObject, QString> wholeObject(const QByteArray& file)
{
    QJsonParseError fault;
    const QJsonDocument document = QJsonDocument::fromJson(file, &fault);
    if (!document.isObject())
        return tl::unexpected(fault.error == QJsonParseError::NoError
                                  ? QStringLiteral("a list of what is in it was expected")
                                  : fault.errorString());
    QJsonObject object = document.object();
    if (object.contains(sumKey) && object.value(sumKey).toString() != sumOf(object))
        return tl::unexpected(QStringLiteral("it is not what was written"));
    object.remove(sumKey);
    return object;
}

QJsonObject wholeObjectIn(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    return wholeObject(file.readAll()).value_or(QJsonObject());
}

tl::expected<void, QString> keepSummed(const QString& path, const QJsonObject& object)
{
    if (const auto kept = writeFileDurably(path, QFileInfo(path).absolutePath(), summed(object));
        !kept)
        return tl::unexpected(words(kept.error()));
    return {};
}

} // namespace ramplight
