// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// A house whose database the disk damaged.
#include "benchhouse.h"

#include "storage/connection.h"

#include <QFile>

namespace ramplight::test {

namespace {

/// The page of a database at which a table begins, counted from 1.
qsizetype firstPageOf(const QString& path, const char* table)
{
    StoreSettings settings;
    settings.file = path;
    const auto connection = Connection::open(settings);
    auto rows = connection ? (*connection)
                                 ->run("SELECT rootpage FROM sqlite_master WHERE name = ?",
                                       {QString::fromLatin1(table)})
                           : tl::unexpected(SqlFault{});
    if (!rows || !rows->next())
        qFatal("%s has no table %s", qPrintable(path), table);
    return rows->number(0);
}

} // namespace

void BenchHouse::tearDatabase(Torn part, const CarId& of)
{
    const QByteArray stock = of.isEmpty() ? QByteArray() : car(of).identity.stockNumber.toUtf8();
    const QByteArray stream = QByteArrayLiteral("car/") + of.text.toUtf8();
    m_backups.reset();
    m_desk.reset();
    m_store.reset();
    m_torn = true;
    const QString path = m_folder.filePath(QStringLiteral("workshop.sqlite"));
    QFile file(path);
    if (!file.open(QIODevice::ReadWrite))
        qFatal("%s", qPrintable(file.errorString()));
    QByteArray bytes = file.readAll();
    const auto overwrite = [&](qsizetype from, qsizetype length) {
        bytes.replace(from, length, QByteArray(length, '\x5a'));
    };
    const qsizetype page = QByteArrayView(bytes).sliced(16, 1).front() * 256;
    const auto pageWith = [&](const QByteArray& type) {
        for (qsizetype at = page; at < bytes.size(); at += page)
            if (const QByteArray one = bytes.mid(at, page);
                one.contains(stream) && one.contains(type) && !one.contains("person-added"))
                return at;
        qFatal("no page has %s of that car", type.constData());
    };
    switch (part) {
    case Torn::FirstHalf:
        overwrite(0, bytes.size() / 2);
        break;
    case Torn::PageOfCar:
        overwrite(pageWith("finding-recorded"), page);
        break;
    case Torn::PageOfReadTable:
        overwrite((firstPageOf(path, "car") - 1) * page, page);
        break;
    case Torn::Tail:
        overwrite(bytes.size() - page, page);
        break;
    case Torn::WordsOfCar:
        overwrite(bytes.indexOf(stock, pageWith("car-arrived")), 1);
        break;
    }
    if (!file.seek(0) || file.write(bytes) != bytes.size())
        qFatal("%s", qPrintable(file.errorString()));
    file.close();
    openStore();
}

} // namespace ramplight::test
