// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "benchprinter.h"
#include "faultydesk.h"

#include "access/sitekeyfile.h"
#include "desk/backupdesk.h"
#include "evidence/photostore.h"
#include "kiosk/setupview.h"

#include <QTemporaryDir>

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <source_location>

namespace ramplight::test {

/// A clock that the bench sets; read on two threads.
class BenchClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override { return {m_ms.load()}; }
    void set(Moment now) { m_ms = now.ms; }
    void goOn(int minutes) { m_ms += qint64{minutes} * 60'000; }

private:
    std::atomic<qint64> m_ms = 0;
};

/// The house behind the screens: an own folder with the real store, keys and photos, and a clock
/// that stands on a Thursday in May 2031 at 13:40. What happens in it are real commands; a refused
/// one fails the test at the caller's line. Each kind of start is made once per program and copied
/// for every test. GUI thread.
class BenchHouse
{
public:
    using Where = std::source_location;

    enum class Start {
        Empty, ///< nothing was set up
        House, ///< people and bays of the demo workshop, and no car; not marked as demo
        Demo,  ///< the demo workshop after its week
    };

    explicit BenchHouse(Start start);
    ~BenchHouse();
    BenchHouse(const BenchHouse&) = delete;
    BenchHouse& operator=(const BenchHouse&) = delete;

    /// Everybody's.
    [[nodiscard]] static QString pin() { return QStringLiteral("271828"); }
    /// By the first part of the name; null when nobody is called that.
    [[nodiscard]] PersonId person(const QString& firstName);
    /// Whether it is theirs from now on.
    [[nodiscard]] bool giveBadge(PersonId person, const QString& code)
    {
        return onStore([&](Workshop&, Store& store) {
            return store.credentials().setBadge(person, code).has_value();
        });
    }
    /// As it stands now; a state with seq 0 when there is none.
    [[nodiscard]] CarState car(const CarId& id);
    [[nodiscard]] CarId carByStock(const QString& stockNumber);
    [[nodiscard]] std::vector<CarCard> cards();
    [[nodiscard]] SiteState site();
    /// The newest open operation of a kind; null when there is none.
    [[nodiscard]] OperationId open(const CarId& id, const char* kind, const char* place = nullptr);

    CarOutcome must(PersonId who, const CarId& car, std::vector<CarCommand> commands,
                    Where where = Where::current());
    /// Whether it was carried out.
    [[nodiscard]] bool tries(PersonId who, const CarId& car, std::vector<CarCommand> commands);
    SiteOutcome must(PersonId who, const SiteCommand& command, const QString& name = {},
                     Where where = Where::current());
    /// A car that has just come in, and nobody has walked round. Needs a house.
    CarId arrive(const QString& stockNumber, const QString& vin = {},
                 Where where = Where::current());
    /// A car with these findings; every other place is sound. Needs a house.
    CarId bringIn(const QString& stockNumber, const std::vector<FindingData>& findings = {},
                  Where where = Where::current());
    /// Many cars without a story, for scrolling.
    void fill(int cars);
    /// Of the site's keys.
    [[nodiscard]] QString keyId() const { return m_keys->id(); }
    /// A picture in the photo store.
    [[nodiscard]] PhotoId photo();
    /// Where the kiosk looks for photos that somebody dropped.
    [[nodiscard]] QString dropFolder() const;
    /// Puts a picture there, as a phone would.
    void drop(const QString& fileName, Where where = Where::current());
    /// A stick that is plugged in; its folder is made when it is first asked for.
    [[nodiscard]] QString stickFolder() const;
    /// A file with these bytes in a folder, of this age.
    void put(const QString& path, const QByteArray& bytes, int minutesOld,
             Where where = Where::current());
    /// A file with these words, in the drop folder or on a stick that is plugged in.
    void putTranscript(const QString& fileName, const QByteArray& words, bool onStick = false,
                       Where where = Where::current());
    /// A spoken walk-round of this folder.
    [[nodiscard]] static QByteArray spoken(const QString& fileName);
    /// What reviewers changed, for whoever looks after the reader.
    [[nodiscard]] QString correctionsFile() const;
    /// Somebody removed the folder of the words.
    void loseTranscripts();
    /// The house as it lies on the disk at this moment, opened again: whatever was only in memory
    /// is gone. No kiosk may be open.
    void cutPower();
    enum class Torn {
        FirstHalf,       ///< of the file: it cannot be opened
        PageOfCar,       ///< with what was found on a car, and nothing of the site's stream
        PageOfReadTable, ///< the first one of the cars' cards
        Tail,            ///< the last page
        WordsOfCar,      ///< one letter in a car's first entry
    };
    /// The database is overwritten while nobody works with it. No kiosk may be open; after that
    /// only one that finds it damaged.
    void tearDatabase(Torn part = Torn::FirstHalf, const CarId& of = {});
    /// Opens what lies in the folder now.
    void openAgain();
    /// The workshop moves to an empty place on a server; its kiosk reaches that in its own way. No
    /// kiosk may be open.
    void moveToServer(const StoreSettings& server, const StoreSettings& kiosk);
    /// Where it saves handover records.
    [[nodiscard]] QString recordFolder() const;
    /// For SetupView: plays the demo week in this store.
    [[nodiscard]] DemoMaker demoMaker();

    /// With the keys of the house.
    [[nodiscard]] HeadKeeper keeper() const;

    /// On the backups' thread, before the house is made anew or brought back. Error: that comes to
    /// nothing.
    std::function<tl::expected<void, QString>()> beforeMending;
    BenchClock clock;
    Catalogue catalogue;
    BenchPrinter printer; ///< none is set until desk().usePrinter()

    [[nodiscard]] FaultyDesk& desk() { return *m_desk; }
    /// None are made until a folder is named.
    [[nodiscard]] BackupDesk& backups() { return *m_backups; }
    /// What was named for the next start.
    [[nodiscard]] QString backupFolder() const { return m_backupFolder; }
    [[nodiscard]] QString folder(const QString& name) const { return m_folder.filePath(name); }
    [[nodiscard]] PhotoStore& photos() { return *m_photos; }
    [[nodiscard]] StoreThread& store() { return *m_store; }

private:
    BenchHouse();
    /// A closed house that started so; made when it is first asked for.
    [[nodiscard]] static QString madeOnce(Start start);
    void openStore();
    void openHouse();
    [[nodiscard]] StoreSettings ownFile() const;
    /// f(Workshop&, Store&) on the store's thread; waits for it.
    template <class F>
    auto onStore(F f) -> std::invoke_result_t<F&, Workshop&, Store&>
    {
        auto future = m_store->run(std::move(f));
        future.waitForFinished();
        return future.result();
    }
    [[nodiscard]] tl::expected<void, QString> play(Store& store,
                                                   const std::function<void(double)>& progress);
    [[nodiscard]] CommandId command();
    [[nodiscard]] QImage picture();

    QTemporaryDir m_folder;
    std::optional<SiteKeys> m_keys;
    std::unique_ptr<PhotoStore> m_photos;
    std::unique_ptr<StoreThread> m_store;
    std::unique_ptr<FaultyDesk> m_desk;
    std::optional<StoreSettings> m_server; ///< as the kiosk reaches it
    bool m_torn = false;
    QString m_backupFolder;
    std::unique_ptr<BackupDesk> m_backups;
    QString m_commandName = QStringLiteral("bench");
    int m_commands = 0;
    int m_pictures = 0;
};

/// "kerbed" at "wheel-front-left".
[[nodiscard]] FindingData finding(const char* place, Condition condition,
                                  std::vector<Remedy> remedies = {});

} // namespace ramplight::test
