// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/faultlist.h"

#include <QRegularExpression>
#include <QSet>

namespace ramplight {

void FaultList::say(const QString& where, const QString& field, const QString& what)
{
    m_faults.append(QStringLiteral("%1, %2: %3").arg(where, field, what));
}

void FaultList::needId(const QString& where, const QString& field, const QString& id)
{
    if (m_catalogue.find(id) == nullptr)
        say(where, field, QStringLiteral("the operation \"%1\" is not in the catalogue").arg(id));
}

void FaultList::needPlaces(const QString& where, const QString& field,
                           const std::vector<PlaceId>& places)
{
    QSet<PlaceId> seen;
    for (const PlaceId& place : places) {
        if (placeInfo(place) == nullptr)
            say(where, field, QStringLiteral("the place \"%1\" is not known").arg(place.text));
        if (seen.contains(place))
            say(where, field, QStringLiteral("\"%1\" is there twice").arg(place.text));
        seen.insert(place);
    }
}

void FaultList::needWords(const QString& where, const QString& field, const QString& words)
{
    if (words.trimmed().isEmpty())
        say(where, field, QStringLiteral("words were expected"));
}

void FaultList::needPlainId(const QString& where, const QString& id)
{
    static const QRegularExpression plain(QStringLiteral("^[a-z0-9]+(-[a-z0-9]+)*$"));
    if (!plain.match(id).hasMatch())
        say(where, QStringLiteral("id"),
            QStringLiteral("small letters, digits and single hyphens were expected"));
}

} // namespace ramplight
