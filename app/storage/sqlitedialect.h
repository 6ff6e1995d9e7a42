// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/dialect.h"

namespace ramplight {

class SqliteDialect : public Dialect
{
public:
    [[nodiscard]] QString driver() const override;
    [[nodiscard]] QString migrations() const override;
    void address(QSqlDatabase& database, const StoreSettings& settings) const override;
    [[nodiscard]] tl::expected<void, StoreError> inspect(QSqlDatabase& database) const override;
    [[nodiscard]] tl::expected<void, StoreError>
    configure(QSqlDatabase& database, const StoreSettings& settings) const override;
    [[nodiscard]] const char* beginRead() const override;
    [[nodiscard]] const char* beginWrite() const override;
    [[nodiscard]] const char* lockSite() const override;
    [[nodiscard]] const char* couldChangeLedger() const override;
    [[nodiscard]] const char* versionTable() const override;
    [[nodiscard]] const char* lockSchema() const override;
    [[nodiscard]] const char* notify() const override;
    [[nodiscard]] const char* changeCounter() const override;
    [[nodiscard]] bool readsForwardOnly() const override;
    [[nodiscard]] bool preparesTransactions() const override;
    [[nodiscard]] int socketOf(const QSqlDatabase& database) const override;
    [[nodiscard]] SqlFault classify(const QSqlError& error) const override;
    [[nodiscard]] QStringList ownCheck(QSqlDatabase& database) const override;
    [[nodiscard]] QStringList foreignSchema(QSqlDatabase& database) const override;
};

} // namespace ramplight
