// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"

#include <QStringList>

// What the checks of a catalogue share: how a fault is said, and what is asked of ids, places and
// words. Internal to the domain.
namespace ramplight {

class FaultList
{
protected:
    explicit FaultList(const Catalogue& catalogue)
        : m_catalogue(catalogue)
    {
    }

    void say(const QString& where, const QString& field, const QString& what);
    /// An operation of this id is in the catalogue.
    void needId(const QString& where, const QString& field, const QString& id);
    /// Places of the vocabulary, none twice.
    void needPlaces(const QString& where, const QString& field, const std::vector<PlaceId>& places);
    void needWords(const QString& where, const QString& field, const QString& words);
    void needPlainId(const QString& where, const QString& id);

    const Catalogue& m_catalogue;
    QStringList m_faults;
};

} // namespace ramplight
