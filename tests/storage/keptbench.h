// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storagebench.h"

#include "storage/outbox.h"
#include "storage/standby.h"
#include "storage/storecopy.h"

#include <QDir>
#include <QFile>
#include <QStringList>

#include <algorithm>
#include <memory>

// What a kiosk keeps and knows, beside a server that is a file: nobody has to start one. And ways
// to damage it.
namespace ramplight::test {

[[nodiscard]] inline QByteArray bytesIn(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

[[nodiscard]] inline bool putBytes(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly | QIODevice::Truncate) &&
           file.write(bytes) == bytes.size();
}

/// Overwrites a part of a file, as a disk that lost it would.
[[nodiscard]] inline bool tear(const QString& path, qsizetype from, qsizetype length)
{
    QByteArray bytes = bytesIn(path);
    const qsizetype torn = std::min(length, bytes.size() - from);
    bytes.replace(from, torn, QByteArray(torn, '\x5a'));
    return putBytes(path, bytes);
}

[[nodiscard]] inline QByteArray withBit(QByteArray bytes, qint64 bit)
{
    bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ (1 << (bit % 8)));
    return bytes;
}

/// Plain SQL in a database that nobody else has open. Empty when it was done, else why not.
[[nodiscard]] inline QString sqlIn(const QString& file, const QStringList& statements)
{
    StoreSettings settings;
    settings.file = file;
    const auto connection = Connection::open(settings);
    if (!connection)
        return connection.error().words;
    for (const QString& statement : statements)
        if (const auto ran = (*connection)->plain(statement); !ran)
            return ran.error().text;
    return {};
}

[[nodiscard]] inline qint64 numberIn(const QString& file, const char* query)
{
    StoreSettings settings;
    settings.file = file;
    const auto connection = Connection::open(settings);
    if (!connection)
        return -1;
    auto rows = (*connection)->run(query);
    return rows && rows->next() ? rows->number(0) : -1;
}

/// Two requests are the same where these are.
[[nodiscard]] inline QString lineOfKept(const KeptRequest& request)
{
    return QStringList{QString::number(request.number),
                       QString::number(request.at.ms),
                       QString::fromUtf8(written(request.asked)),
                       QString::fromUtf8(written(request.works)),
                       request.refusal,
                       QString::number(request.refusedAt.ms),
                       QString::number(request.seenBy.value),
                       QString::number(request.seenAt.ms)}
        .join(QLatin1Char('\n'));
}

/// What an outbox says of itself.
struct Told
{
    explicit Told(Outbox& outbox)
    {
        const auto kept = outbox.kept();
        const auto noted = outbox.seen();
        if (!kept || !noted)
            qFatal("the outbox cannot be read");
        for (const KeptRequest& request : *kept) {
            if (request.trouble)
                troubles.push_back(*request.trouble);
            else if (request.damaged)
                damaged.push_back(request);
            else if (request.waits())
                waiting.append(lineOfKept(request));
            else
                refused.append(lineOfKept(request));
        }
        for (const KeptRequest& request : *noted)
            seen.append(lineOfKept(request));
    }

    QStringList waiting;
    QStringList refused;
    QStringList seen;
    std::vector<KeptRequest> damaged;
    std::vector<KeptTrouble> troubles;
};

/// Some of everything: what waits, what was refused, what somebody took note of; short and long.
inline void fillOutbox(const QString& file, const SiteId& site, int requests)
{
    const auto opened = Outbox::open(file, site);
    if (!opened)
        qFatal("%s", qPrintable(opened.error().words));
    Outbox& outbox = **opened;
    for (int i = 1; i <= requests; ++i) {
        const CarId car{QStringLiteral("car-%1").arg(i % 7)};
        KeptRequest request;
        request.at = {1'930'000'000'000 + i * qint64{60'000}};
        request.asked = CarRequest{
            CommandId{QStringLiteral("request-%1").arg(i)},
            PersonId{1 + i % 5},
            car,
            {car::StartWork{OperationId{i}},
             car::SignOff{OperationId{i},
                          QStringLiteral("torque %1; ").arg(i).repeated(i % 10 == 0 ? 600 : 3)}},
            i % 2 == 0};
        request.works = {{car,
                          OperationId{i},
                          QStringLiteral("K-%1").arg(i % 7),
                          QStringLiteral("Final check"),
                          QStringLiteral("final-check"),
                          {}}};
        bool isKept = outbox.keep(request).has_value();
        if (i % 7 == 0)
            isKept = isKept && outbox.refuse(request.number, QStringLiteral("done already"),
                                             request.at.plusMinutes(5));
        if (i % 14 == 0)
            isKept = isKept && outbox.note(request.number, PersonId{1}, request.at.plusMinutes(9));
        if (!isKept)
            qFatal("the outbox takes nothing");
    }
}

/// A workshop on a "server", and the folder of a kiosk of it.
class StandbyHouse
{
public:
    StandbyHouse()
        : database(StoreKind::Sqlite)
    {
        car = bench.appraised();
        other = bench.appraised();
        work = bench.open(car, "arrival-check");
        who = bench.whoFor(bench.operation(car, work));
        server = database.open();
        if (const auto written = replay(bench.ledger.accepted(), server->ledger()); !written)
            qFatal("%s", qPrintable(written.error().words));
        if (!server->credentials().setPinHash(who, "a hash"))
            qFatal("no hash");
    }

    [[nodiscard]] QString folder() const { return m_folder.filePath(QStringLiteral("standby")); }
    [[nodiscard]] QString file(const char* name) const
    {
        return folder() + QLatin1Char('/') + QLatin1StringView(name);
    }
    [[nodiscard]] std::unique_ptr<Standby> kiosk() const
    {
        return std::make_unique<Standby>(folder(), keeperWith(), bench.clock, bench.catalogue);
    }
    /// Everything is taken over. Whether something was to be told.
    bool follow(Standby& kiosk)
    {
        kiosk.want({});
        kiosk.wantSite();
        bool isToBeTold = false;
        for (int i = 0; i < 1000 && kiosk.hasToFollow(); ++i)
            isToBeTold = kiosk.follow(*server) || isToBeTold;
        if (kiosk.isInStep())
            kiosk.markKnown(bench.clock.now());
        return isToBeTold;
    }
    /// A kiosk that knew the whole workshop and was switched off.
    [[nodiscard]] bool leaveStandby()
    {
        const auto kiosk = this->kiosk();
        if (!kiosk->open(*server))
            return false;
        follow(*kiosk);
        return !kiosk->knownAt().isNull();
    }
    /// The server's refusal, "done", or its words.
    QString ask(PersonId person, const CarId& of, std::vector<CarCommand> commands)
    {
        static int count = 0;
        return run(server->ledger(), {CommandId{QStringLiteral("asked-%1").arg(++count)}, person,
                                      of, std::move(commands), true});
    }
    QString run(Ledger& ledger, const CarRequest& request)
    {
        Workshop workshop(ledger, bench.clock, bench.catalogue);
        const auto outcome = workshop.run(request);
        return outcome ? done : words(outcome.error());
    }
    /// Somebody begins work, as the command "kept".
    QString run(Workshop& workshop)
    {
        const auto outcome =
            workshop.run(CarRequest{CommandId{"kept"}, who, car, {car::StartWork{work}}, true});
        return outcome ? done : words(outcome.error());
    }
    /// What a backup of the server would have now.
    [[nodiscard]] bool backUp(const QString& to) const
    {
        return snapshot(database.settings(), to).has_value();
    }
    /// Its administrator brings it back.
    [[nodiscard]] bool restore(const QString& backup)
    {
        server.reset();
        for (const char* part : {"-wal", "-shm", ""})
            QFile::remove(database.settings().file + QLatin1StringView(part));
        const bool copied = QFile::copy(backup, database.settings().file);
        server = database.open();
        return copied;
    }
    /// With nothing remembered.
    void reopen()
    {
        server.reset();
        server = database.open();
    }
    [[nodiscard]] QString backupName() const
    {
        return m_folder.filePath(QStringLiteral("backup.sqlite"));
    }
    /// Files of the kiosk whose names begin so.
    [[nodiscard]] QStringList filesLike(const QString& pattern) const
    {
        return QDir(folder()).entryList({pattern}, QDir::Files, QDir::Name);
    }

    Workbench bench;
    TestDatabase database;
    std::unique_ptr<Store> server;
    CarId car;
    CarId other;
    OperationId work; ///< one with one reading
    PersonId who;     ///< may do it

private:
    QTemporaryDir m_folder;
};

} // namespace ramplight::test
