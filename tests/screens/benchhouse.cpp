// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchhouse.h"

#include "backup/restore.h"
#include "demo/democrew.h"
#include "demo/demopictures.h"
#include "storage/remake.h"
#include "support/folders.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFontDatabase>
#include <QImage>
#include <QPainter>
#include <QTest>
#include <QTimeZone>

#include <algorithm>
#include <map>

namespace ramplight::test {

namespace {

constexpr unsigned weekSeed = 417;
/// Quick enough for tests that sign in often.
constexpr PinCost cheap{1, std::size_t{1} << 16U};

void fail(const QString& what, BenchHouse::Where where)
{
    QTest::qFail(qPrintable(what), where.file_name(), static_cast<int>(where.line()));
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void copyAll(const QString& from, const QString& to)
{
    if (!copyFolder(from, to))
        qFatal("%s cannot be copied", qPrintable(from));
}

demo::WorkshopFile demoFile()
{
    const auto read =
        demo::readWorkshop(bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/workshop.json")));
    if (!read)
        qFatal("%s", qPrintable(read.error()));
    return *read;
}

} // namespace

FindingData finding(const char* place, Condition condition, std::vector<Remedy> remedies)
{
    FindingData data;
    data.place = PlaceId{QString::fromLatin1(place)};
    data.condition = condition;
    data.severity = Severity::Moderate;
    data.remedies = std::move(remedies);
    return data;
}

BenchHouse::BenchHouse()
{
    // As in the program: its own typeface is there before anything draws words.
    for (const char* font : {"B612-Regular.otf", "B612-Bold.otf"})
        QFontDatabase::addApplicationFont(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/assets/fonts/") +
                                          QLatin1StringView(font));
    clock.set({QDateTime({2031, 5, 8}, {13, 40}, QTimeZone("Europe/London")).toMSecsSinceEpoch()});
    CatalogueReading reading = readCatalogue(
        bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json")));
    if (!reading.faults.isEmpty())
        qFatal("%s", qPrintable(reading.faults.join(QLatin1Char('\n'))));
    catalogue = std::move(reading.catalogue);
}

BenchHouse::BenchHouse(Start start)
    : BenchHouse()
{
    if (start != Start::Empty)
        copyAll(madeOnce(start), m_folder.path());
    openStore();
}

QString BenchHouse::madeOnce(Start start)
{
    static std::map<Start, std::unique_ptr<QTemporaryDir>> made;
    std::unique_ptr<QTemporaryDir>& folder = made[start];
    if (folder)
        return folder->path();
    folder = std::make_unique<QTemporaryDir>();
    const auto make = [start](const QString& to) {
        BenchHouse house;
        house.m_commandName = QStringLiteral("opening");
        house.openStore();
        if (start == Start::House)
            house.openHouse();
        if (start == Start::Demo) {
            const auto played = house.onStore(
                [&house](Workshop&, Store& store) { return house.play(store, [](double) {}); });
            if (!played)
                qFatal("%s", qPrintable(played.error()));
        }
        house.m_desk.reset();
        house.m_store.reset(); // the whole database is in its file now
        return copyFolder(house.m_folder.path(), to);
    };
    // Only the demo's week is long enough to be worth sharing.
    if (!(start == Start::Demo ? copyOfShared(QStringLiteral("demo-of-2031"), folder->path(), make)
                               : make(folder->path())))
        qFatal("%s cannot be written", qPrintable(folder->path()));
    return folder->path();
}

HeadKeeper BenchHouse::keeper() const
{
    return {m_keys->id(), [this](const QByteArray& bytes) { return m_keys->keyedDigest(bytes); }};
}

StoreSettings BenchHouse::ownFile() const
{
    StoreSettings settings;
    settings.file = m_folder.filePath(QStringLiteral("workshop.sqlite"));
    return settings;
}

void BenchHouse::openStore()
{
    QDir(m_folder.path()).mkpath(QStringLiteral("drop"));
    QDir(m_folder.path()).mkpath(QStringLiteral("records"));
    m_photos = std::make_unique<PhotoStore>(m_folder.filePath(QStringLiteral("photos")));
    const SiteKeyFile file(m_folder.filePath(QStringLiteral("site.keys")));
    auto keys = QFile::exists(file.path()) ? file.read() : file.create();
    if (!keys)
        qFatal("%s", qPrintable(words(keys.error())));
    m_keys.emplace(std::move(*keys));

    const StoreSettings settings = m_server.value_or(ownFile());
    const HeadKeeper keeper = this->keeper();
    m_store = std::make_unique<StoreThread>(settings, keeper, clock, catalogue);
    auto opening = m_store->start();
    opening.waitForFinished();
    if (!m_torn && !opening.result())
        qFatal("%s", qPrintable(opening.result().error().words));
    m_desk = std::make_unique<FaultyDesk>(
        *m_store, clock, m_keys->pepper().clone(), *m_photos,
        DeskPlaces{dropFolder(),
                   recordFolder(),
                   {},
                   bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/schema/appraisal.schema.json")),
                   catalogue.standingLine,
                   SpeechPlaces{dropFolder(),
                                {m_folder.filePath(QStringLiteral("stick"))},
                                m_folder.filePath(QStringLiteral("transcripts")),
                                m_folder.filePath(QStringLiteral("corrections.jsonl")),
                                [] {
                                    return bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR
                                                                  "/assets/lexicon/en.json"));
                                },
                                QStringLiteral("en")},
                   &printer},
        cheap);
    m_backups = std::make_unique<BackupDesk>(
        BackupSource{settings, keeper, *m_photos, m_folder.filePath(QStringLiteral("transcripts")),
                     correctionsFile(), QStringLiteral("bench")},
        BackupPlan{m_backupFolder,
                   QTime(20, 30),
                   m_folder.filePath(QStringLiteral("backup.json")),
                   m_folder.filePath(QStringLiteral("keycopy.json")),
                   {},
                   [this](const QString& folder) {
                       m_backupFolder = folder;
                       return QString();
                   },
                   [this, keeper](const Backup& backup) -> tl::expected<void, QString> {
                       if (const auto may =
                               beforeMending ? beforeMending() : tl::expected<void, QString>();
                           !may)
                           return may;
                       const auto restored = restore(
                           {backup,
                            m_folder.path(),
                            {QStringLiteral("workshop.sqlite"), QStringLiteral("site.keys"),
                             QStringLiteral("photos"), QStringLiteral("transcripts"),
                             QStringLiteral("corrections.jsonl"), QStringLiteral("settings.ini"),
                             QStringLiteral("restored.json"), QStringLiteral("backup.json")},
                            m_folder.filePath(QStringLiteral("site.keys")),
                            keeper,
                            clock.now(),
                            {},
                            true});
                       if (!restored)
                           return tl::unexpected(restored.error());
                       return {};
                   },
                   [settings, keeper] { return hurtIn(settings, keeper) == Hurt::ReadTables; },
                   [this, settings, keeper]() -> tl::expected<void, QString> {
                       const auto remade = remakeFile(settings, keeper, {}, clock.now());
                       if (!remade)
                           return tl::unexpected(remade.error().words);
                       return {};
                   },
                   m_folder.filePath(QStringLiteral("restored.json")),
                   [this](const QString& words) { m_store->rest(words).waitForFinished(); },
                   [this] { m_store->getUp().waitForFinished(); }},
        clock);
}

BenchHouse::~BenchHouse() = default;

tl::expected<void, QString> BenchHouse::play(Store& store,
                                             const std::function<void(double)>& progress)
{
    const demo::WorkshopFile file = demoFile();
    demo::Crew crew(store.ledger(), catalogue, file, demo::picturesInto(*m_photos), weekSeed);
    if (auto played = crew.play(clock.now(), progress); !played)
        return played;
    const PinHasher hasher(m_keys->pepper().clone(), cheap);
    for (int person = 1; person <= static_cast<int>(file.people.size()); ++person) {
        const auto hash = hasher.hash(PersonId{person}, Secret(pin().toLatin1()));
        if (!hash)
            return tl::unexpected(words(hash.error()));
        if (const auto set = store.credentials().setPinHash(PersonId{person}, *hash); !set)
            return tl::unexpected(words(set.error()));
    }
    return {};
}

DemoMaker BenchHouse::demoMaker()
{
    return [this](std::function<void(double)> progress) {
        return m_store->run([this, progress = std::move(progress)](Workshop&, Store& store) {
            return play(store, progress);
        });
    };
}

void BenchHouse::openHouse()
{
    const demo::WorkshopFile file = demoFile();
    site::SetUp setUp;
    setUp.name = QStringLiteral("Harrow Quay Motors");
    setUp.firstPersonsSkills = file.people.front().skills;
    const PersonId manager = must({}, SiteCommand{setUp}, file.people.front().name).person;
    for (std::size_t i = 1; i < file.people.size(); ++i)
        must(manager, SiteCommand{site::AddPerson{file.people[i].skills, file.people[i].rights}},
             file.people[i].name);
    for (const Bay& bay : file.bays)
        must(manager, SiteCommand{site::SetBay{bay}});
    for (std::size_t i = 0; i < file.people.size(); ++i) {
        site::SetCompetence competence{
            PersonId{static_cast<int>(i) + 1}, {}, file.people[i].specialities};
        for (const demo::QualifiedEntry& held : file.people[i].qualifications)
            competence.qualifications.push_back(
                {held.qualification, dayOf(clock.now(), {}).addDays(held.days)});
        must(manager, SiteCommand{competence});
    }
    for (const auto& [id, person] : site().people) {
        auto set = m_desk->setPin(id, Secret(pin().toLatin1()));
        set.waitForFinished();
        if (!set.result())
            fail(words(set.result().error()), Where::current());
    }
}

PersonId BenchHouse::person(const QString& firstName)
{
    for (const auto& [id, person] : site().people)
        if (person.name.startsWith(firstName))
            return id;
    return {};
}

SiteState BenchHouse::site()
{
    return onStore([](Workshop&, Store& store) { return store.ledger().site(); }).value();
}

CarState BenchHouse::car(const CarId& id)
{
    return onStore([id](Workshop&, Store& store) { return store.ledger().car(id); }).value();
}

CarId BenchHouse::carByStock(const QString& stockNumber)
{
    return onStore([stockNumber](Workshop&, Store& store) {
               return store.ledger().carByStockNumber(stockNumber);
           })
        .value()
        .value_or(CarId{});
}

std::vector<CarCard> BenchHouse::cards()
{
    return onStore([](Workshop&, Store& store) { return store.wall().wall(); }).value();
}

OperationId BenchHouse::open(const CarId& id, const char* kind, const char* place)
{
    OperationId newest;
    const CarState state = car(id);
    for (const auto& [number, operation] : state.operations)
        if (operation.isOpen() && operation.spec->id == QLatin1StringView(kind) &&
            (place == nullptr || operation.place.text == QLatin1StringView(place)))
            newest = number;
    return newest;
}

CarOutcome BenchHouse::must(PersonId who, const CarId& id, std::vector<CarCommand> commands,
                            Where where)
{
    const CarRequest request{command(), who, id, std::move(commands), true};
    auto outcome = onStore([request](Workshop& workshop, Store&) { return workshop.run(request); });
    if (outcome)
        return std::move(*outcome);
    fail(QStringLiteral("refused: %1").arg(words(outcome.error())), where);
    return {};
}

bool BenchHouse::tries(PersonId who, const CarId& id, std::vector<CarCommand> commands)
{
    const CarRequest request{command(), who, id, std::move(commands), true};
    return onStore([request](Workshop& workshop, Store&) { return workshop.run(request); })
        .has_value();
}

SiteOutcome BenchHouse::must(PersonId who, const SiteCommand& command_, const QString& name,
                             Where where)
{
    const SiteRequest request{command(), who, command_, name};
    auto outcome = onStore([request](Workshop& workshop, Store&) { return workshop.run(request); });
    if (outcome)
        return std::move(*outcome);
    fail(QStringLiteral("refused: %1").arg(words(outcome.error())), where);
    return {};
}

CarId BenchHouse::arrive(const QString& stockNumber, const QString& vin, Where where)
{
    const CarId id{QStringLiteral("bench-%1").arg(stockNumber.toLower())};
    Identity identity;
    identity.stockNumber = stockNumber;
    identity.vin = vin;
    identity.registration = QStringLiteral("QX %1 K").arg(1000 + m_commands);
    identity.make = QStringLiteral("Orrel");
    identity.model = QStringLiteral("Tarn 1.2");
    identity.colour = QStringLiteral("slate");
    CarFacts facts;
    facts.has = {Fact::CombustionEngine};
    facts.odometer = 41200;
    facts.keys = 2;
    must(person(QStringLiteral("Odo")), id,
         {car::BringIn{identity, facts, QDate(2031, 5, 9), QStringLiteral("yard")}}, where);
    return id;
}

CarId BenchHouse::bringIn(const QString& stockNumber, const std::vector<FindingData>& findings,
                          Where where)
{
    const CarId id = arrive(stockNumber, {}, where);
    const PersonId appraiser = person(QStringLiteral("Odo"));
    std::vector<CarCommand> commands;
    std::vector<PlaceId> sound;
    for (const PlaceInfo& place : allPlaces())
        if (place.id != wholeCar() && std::ranges::none_of(findings, [&](const FindingData& f) {
                return f.place == place.id;
            }))
            sound.push_back(place.id);
    for (const FindingData& data : findings)
        commands.emplace_back(car::RecordFinding{data, {}});
    commands.emplace_back(car::FindSound{sound});
    commands.emplace_back(car::FinishAppraisal{});
    must(appraiser, id, std::move(commands), where);
    return id;
}

void BenchHouse::fill(int cars)
{
    const std::vector<FindingData> some = {
        finding("tyre-front-left", Condition::Worn, {Remedy::Replace}),
        finding("wheel-rear-right", Condition::Kerbed, {Remedy::Refurbish}),
        finding("front-door-left", Condition::Dent, {Remedy::DentRepair})};
    for (int i = 0; i < cars; ++i)
        bringIn(QStringLiteral("K-%1").arg(100 + i),
                {some.begin(), some.begin() + i % static_cast<int>(some.size() + 1)});
}

QImage BenchHouse::picture()
{
    QImage image(1200, 900, QImage::Format_RGB32);
    image.fill(QColor::fromHsv((++m_pictures * 37) % 360, 60, 170));
    QPainter painter(&image);
    for (int i = 0; i < 24; ++i)
        painter.drawLine(i * 50, 0, 1200 - i * 30, 900);
    return image;
}

PhotoId BenchHouse::photo()
{
    const auto kept = m_photos->keep(picture());
    return kept ? kept->id : PhotoId{};
}

void BenchHouse::drop(const QString& fileName, Where where)
{
    if (!picture().save(dropFolder() + QLatin1Char('/') + fileName))
        fail(QStringLiteral("%1 cannot be written").arg(fileName), where);
}

QString BenchHouse::stickFolder() const
{
    QDir(m_folder.path()).mkpath(QStringLiteral("stick"));
    return m_folder.filePath(QStringLiteral("stick"));
}

void BenchHouse::put(const QString& path, const QByteArray& bytes, int minutesOld, Where where)
{
    QFile file(path);
    if (!QDir().mkpath(QFileInfo(path).path()) || !file.open(QIODevice::WriteOnly) ||
        file.write(bytes) != bytes.size() || !file.flush() ||
        !file.setFileTime(QDateTime::fromMSecsSinceEpoch(clock.now().plusMinutes(-minutesOld).ms),
                          QFileDevice::FileModificationTime))
        fail(QStringLiteral("%1 cannot be written").arg(path), where);
}

QString BenchHouse::dropFolder() const
{
    return m_folder.filePath(QStringLiteral("drop"));
}

void BenchHouse::putTranscript(const QString& fileName, const QByteArray& words, bool onStick,
                               Where where)
{
    const QString folder = onStick ? stickFolder() : dropFolder();
    QFile file(folder + QLatin1Char('/') + fileName);
    if (!QDir().mkpath(folder) || !file.open(QIODevice::WriteOnly) ||
        file.write(words) != words.size())
        fail(QStringLiteral("%1 cannot be written").arg(file.fileName()), where);
}

QByteArray BenchHouse::spoken(const QString& fileName)
{
    return bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/screens/spoken/") + fileName);
}

QString BenchHouse::correctionsFile() const
{
    return m_folder.filePath(QStringLiteral("corrections.jsonl"));
}

void BenchHouse::loseTranscripts()
{
    QDir(m_folder.filePath(QStringLiteral("transcripts"))).removeRecursively();
}

void BenchHouse::cutPower()
{
    // Copied while the store is open, so nothing is written on closing.
    const QTemporaryDir asItLies;
    copyAll(m_folder.path(), asItLies.path());
    m_desk.reset();
    m_store.reset();
    m_photos.reset();
    for (const QString& name :
         QDir(m_folder.path()).entryList(QDir::AllEntries | QDir::NoDotAndDotDot)) {
        const QString path = m_folder.filePath(name);
        if (QFileInfo(path).isDir() ? !QDir(path).removeRecursively() : !QFile::remove(path))
            qFatal("%s cannot be removed", qPrintable(path));
    }
    copyAll(asItLies.path(), m_folder.path());
    openStore();
}

void BenchHouse::openAgain()
{
    m_backups.reset();
    m_desk.reset();
    m_store.reset();
    m_torn = false;
    openStore();
}

QString BenchHouse::recordFolder() const
{
    return m_folder.filePath(QStringLiteral("records"));
}

CommandId BenchHouse::command()
{
    return CommandId{QStringLiteral("%1-%2").arg(m_commandName).arg(++m_commands)};
}

} // namespace ramplight::test
