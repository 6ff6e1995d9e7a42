// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight::test {

/// An empty database on the tests' PostgreSQL server, as long as it lives.
class ScratchDatabase
{
public:
    /// server: as RAMPLIGHT_TEST_PG has it. how: what else is said where it is made.
    explicit ScratchDatabase(const QString& server, const QString& how = {});
    ScratchDatabase(const ScratchDatabase&) = delete;
    ScratchDatabase& operator=(const ScratchDatabase&) = delete;
    ~ScratchDatabase();

    /// False: it could not be made.
    [[nodiscard]] bool isThere() const { return m_there; }
    /// libpq's keywords.
    [[nodiscard]] QString address() const;

private:
    [[nodiscard]] bool tell(const QString& statement) const;

    QString m_server;
    QString m_name;
    bool m_there = false;
};

} // namespace ramplight::test
