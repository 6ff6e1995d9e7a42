// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QMap>
#include <QString>
#include <QStringList>

namespace ramplight::test {

/// How often each kind of command was asked at kiosks, and what came of it, as they told it.
class AskedTally
{
public:
    /// Whole lines of a HouseWorker's; others are left out.
    void hear(const QByteArray& lines);
    void add(const AskedTally& other);

    /// Kinds of commands on cars and about the house, by name.
    [[nodiscard]] QStringList neverAsked() const;
    [[nodiscard]] QStringList neverDone() const;
    /// Commands about the house that were told to wait for the server.
    [[nodiscard]] int houseWaited() const;
    /// A line for each kind that was asked.
    [[nodiscard]] QString told() const;

private:
    struct Count
    {
        int asked = 0;
        int done = 0;
        int waited = 0; ///< told to wait for the server
    };

    [[nodiscard]] QStringList without(int Count::*what) const;

    QMap<QString, Count> m_counts;
};

} // namespace ramplight::test
