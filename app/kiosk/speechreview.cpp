// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What the review shows. What it records is in speechreviewasks.cpp.
#include "kiosk/speechreview.h"

#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"

#include <algorithm>

namespace ramplight {

namespace {

QString titleOf(SpeechReview::Stage stage)
{
    switch (stage) {
    case SpeechReview::Doubtful:
        return SpeechReview::tr("Doubtful");
    case SpeechReview::Sure:
        return SpeechReview::tr("Sure");
    case SpeechReview::Tyres:
        return SpeechReview::tr("Tyres");
    case SpeechReview::Sound:
        return SpeechReview::tr("Sound");
    case SpeechReview::Car:
        return SpeechReview::tr("The car");
    case SpeechReview::NotMentioned:
        return SpeechReview::tr("Not said");
    case SpeechReview::Done:
        break;
    }
    return {};
}

constexpr std::array allStages{SpeechReview::Doubtful, SpeechReview::Sure,
                               SpeechReview::Tyres,    SpeechReview::Sound,
                               SpeechReview::Car,      SpeechReview::NotMentioned};

/// What was found, without the place, which stands above it.
QString whatOf(const FindingData& data, const HouseRules& rules)
{
    const QString all = findingWords(data, rules);
    return all.mid(all.indexOf(QLatin1String(": ")) + 2);
}

QString todoOf(const FindingData& data)
{
    QStringList todo;
    for (const Remedy remedy : data.remedies)
        todo.append(words(remedy));
    return todo.join(QStringLiteral(", "));
}

QString momentOf(const std::optional<int>& seconds)
{
    return seconds ? recordingWords(*seconds) : QString();
}

/// Which view of a walk-round draws a place for a review: the body shows all that is outside.
WalkView shownIn(const PlaceInfo& place)
{
    switch (place.kind) {
    case PlaceKind::Wheel:
    case PlaceKind::Tyre:
    case PlaceKind::Glass:
    case PlaceKind::Lamp:
        return WalkView::Body;
    default:
        return walkViewOf(place);
    }
}

} // namespace

SpeechReview::SpeechReview(Desk& desk, WalkRound& walk, SiteBook& book, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_walk(walk)
    , m_book(book)
    , m_change(book)
{
    connect(m_walk.car(), &CarView::changed, this, &SpeechReview::rebuild);
    connect(this, &SpeechReview::wordsRead, this, &SpeechReview::changed);
}

// ---- which round -----------------------------------------------------------------------------

const SpokenReview* SpeechReview::review() const
{
    return m_walk.car()->loaded() && car().id == m_id ? car().review(m_transcript) : nullptr;
}

void SpeechReview::begin(const QString& carId)
{
    m_id = CarId{carId};
    m_transcript = {};
    m_chosen = -1;
    m_lastPlace = {};
    m_last.clear();
    m_lastWords.clear();
    m_walk.begin(carId, 0);
    rebuild();
}

void SpeechReview::chooseRound()
{
    const auto& all = car().spoken;
    const auto most = std::ranges::max_element(all, {}, &SpokenReview::open);
    if (most != all.end())
        // Nothing is left to decide: the last one that was read.
        showRound(most->open() > 0 ? most->round.transcript : all.back().round.transcript);
}

void SpeechReview::showOtherRound()
{
    const auto& all = car().spoken;
    if (const SpokenReview* now = review())
        showRound((now == &all.back() ? all.front() : *(now + 1)).round.transcript);
}

void SpeechReview::showRound(const TranscriptId& transcript)
{
    m_transcript = transcript;
    m_chosen = -1;
    m_stage = Done;
    m_last.clear();
    m_lastWords.clear();
    readWords();
    rebuild();
    setStage(firstWithWork());
}

void SpeechReview::readWords()
{
    m_words.setText({});
    m_wordsFault.clear();
    m_recording.clear();
    const SpokenReview* heard = review();
    if (heard == nullptr)
        return;
    whenReady(m_desk.spokenText(heard->round), this,
              [this, turn = ++m_turn](const tl::expected<SpokenText, QString>& text) {
                  if (turn != m_turn)
                      return;
                  m_wordsFault = text ? QString() : text.error();
                  m_recording = text ? text->recording : QString();
                  m_words.setText(text.value_or(SpokenText()));
                  rebuild();
                  emit wordsRead();
              });
}

QString SpeechReview::whichWords() const
{
    const auto& all = car().spoken;
    const SpokenReview* now = review();
    return all.size() < 2 || now == nullptr
               ? QString()
               : tr("%1 of %2").arg(now - all.data() + 1).arg(all.size());
}

QString SpeechReview::aboutWords() const
{
    const SpokenReview* heard = review();
    if (heard == nullptr)
        return {};
    const int all = static_cast<int>(heard->round.drafts.size());
    return dotted(
        {heard->round.name, heard->open() == 0
                                ? tr("all %1 findings are decided").arg(all)
                                : tr("%1 of %2 findings to decide").arg(heard->open()).arg(all)});
}

// ---- what is left ----------------------------------------------------------------------------

int SpeechReview::leftIn(Stage stage) const
{
    std::size_t left = 0;
    switch (stage) {
    case Doubtful:
        left = m_left.doubtful.size();
        break;
    case Sure:
        left = m_left.sure.size();
        break;
    case Tyres:
        left = m_left.depths.size();
        break;
    case Sound:
        left = m_left.sound.size();
        break;
    case Car:
        left = static_cast<std::size_t>(factLines().size());
        break;
    case NotMentioned:
        left = m_left.notMentioned.size();
        break;
    case Done:
        break;
    }
    return static_cast<int>(left);
}

SpeechReview::Stage SpeechReview::firstWithWork() const
{
    const auto found = std::ranges::find_if(allStages, [&](Stage s) { return leftIn(s) > 0; });
    return found == allStages.end() ? Done : *found;
}

void SpeechReview::setStage(Stage stage)
{
    m_stage = stage;
    m_chosen = stage == Doubtful && !m_left.doubtful.empty() ? m_left.doubtful.front() : -1;
    rebuildLists();
}

void SpeechReview::rebuild()
{
    if (m_walk.car()->loaded() && car().id == m_id && m_transcript.isEmpty() &&
        !car().spoken.empty()) {
        chooseRound();
        return;
    }
    const SpokenReview* heard = review();
    const int before = leftIn(m_stage);
    std::vector<int> queue = m_stage == Sure ? m_left.sure : m_left.doubtful;
    m_left = heard == nullptr ? ReviewLeft{} : leftOf(car(), *heard);
    std::erase_if(m_left.notMentioned, [this](const PlaceId& place) {
        const PlaceInfo* info = placeInfo(place);
        return info == nullptr || !hasPlace(car(), *info);
    });
    // Decided: on to the one that stood behind it, or back to the list.
    if (const auto was = std::ranges::find(queue, m_chosen);
        heard != nullptr && m_chosen >= 0 && was != queue.end() && !chosenOpen()) {
        std::ranges::rotate(queue, was);
        const auto next = std::ranges::find_first_of(queue, m_left.doubtful);
        m_chosen = m_stage == Doubtful && next != queue.end() ? *next : -1;
    }
    if (heard != nullptr && before > 0 && leftIn(m_stage) == 0) {
        setStage(firstWithWork());
        return;
    }
    rebuildLists();
}

std::vector<ReviewDraftRow> SpeechReview::sureRows(const SpokenReview& heard) const
{
    const HouseRules& rules = m_book.rules();
    std::vector<ReviewDraftRow> rows;
    for (const int at : m_left.sure) {
        const FindingData& data = heard.round.drafts[static_cast<std::size_t>(at)].data;
        rows.push_back({at, sentence(ramplight::placeWords(data.place, rules)), whatOf(data, rules),
                        todoOf(data), momentOf(data.atSeconds)});
    }
    return rows;
}

std::vector<ReviewDepthRow> SpeechReview::depthRows(const SpokenReview& heard) const
{
    std::vector<ReviewDepthRow> rows;
    for (const SpokenDepth& depth : m_left.depths) {
        const bool whole = treadOf(depth).has_value();
        const QString low = valueWords(depth.lowTenthsMm, 1, Unit::Millimetre);
        rows.push_back(
            {depth.tyre.text, sentence(ramplight::placeWords(depth.tyre, m_book.rules())),
             whole ? low
                   : tr("%1 to %2").arg(low, valueWords(depth.highTenthsMm, 1, Unit::Millimetre)),
             whole, waitsForDraft(heard, depth.tyre)});
    }
    return rows;
}

void SpeechReview::rebuildLists()
{
    const SpokenReview* heard = review();
    const HouseRules& rules = m_book.rules();
    m_marks.clear();
    if (heard != nullptr)
        for (std::size_t i = 0; i < heard->decisions.size(); ++i) {
            const QString place = heard->round.drafts[i].data.place.text;
            if (heard->decisions[i].end == DraftEnd::Open)
                m_marks.insert(place, Wall::Outstanding);
            else if (!m_marks.contains(place))
                m_marks.insert(place, Wall::Done);
        }
    m_lastPlace = draft() == nullptr ? PlaceId{} : draft()->data.place;

    std::vector<ReviewStageRow> stages;
    for (const Stage stage : allStages)
        stages.push_back({stage, titleOf(stage), leftIn(stage), stage == m_stage});
    m_stages.setRows(std::move(stages));

    m_sure.setRows(heard == nullptr ? std::vector<ReviewDraftRow>() : sureRows(*heard));
    m_depths.setRows(heard == nullptr ? std::vector<ReviewDepthRow>() : depthRows(*heard));

    const auto placesOf = [&](const std::vector<PlaceId>& places) {
        const auto& safety = car().safetyPlaces;
        std::vector<ReviewPlaceRow> rows;
        for (const PlaceId& place : places)
            rows.push_back({place.text, sentence(ramplight::placeWords(place, rules)),
                            std::ranges::find(safety, place, &SafetyPlace::place) != safety.end()});
        return rows;
    };
    m_sound.setRows(placesOf(m_left.sound));
    m_notMentioned.setRows(placesOf(m_left.notMentioned));
    m_words.setDecisions(heard == nullptr ? std::vector<DraftDecision>() : heard->decisions,
                         m_chosen);
    emit changed();
}

std::vector<SpokenDepth> SpeechReview::depthsReady() const
{
    std::vector<SpokenDepth> ready;
    for (const SpokenDepth& depth : m_left.depths)
        if (treadOf(depth) && !waitsForDraft(*review(), depth.tyre))
            ready.push_back(depth);
    return ready;
}

int SpeechReview::depthsToKeep() const
{
    return static_cast<int>(depthsReady().size());
}

QStringList SpeechReview::factLines() const
{
    QStringList lines;
    const SaidOfCar& said = m_left.facts;
    if (said.odometer)
        lines.append(
            tr("Odometer: %1").arg(ramplight::odometerWords(*said.odometer, said.odometerUnit)));
    if (said.keys)
        lines.append(car().facts.keys == 0
                         ? tr("Keys: %1; not entered yet").arg(*said.keys)
                         : tr("Keys: %1; entered: %2").arg(*said.keys).arg(car().facts.keys));
    if (said.testCertificateMonths)
        lines.append(tr("Test certificate: %1 months left").arg(*said.testCertificateMonths));
    if (car().appraised && (said.keys || said.testCertificateMonths) && !factsCanBeTaken())
        lines.append(tr("It was entered otherwise: correct what the car has, with a photo."));
    return lines;
}

bool SpeechReview::factsCanBeTaken() const
{
    return !ramplight::takeFacts(car(), m_left.facts, {}).empty();
}

QString SpeechReview::odometerWords() const
{
    const auto before = car().lastOdometer();
    return saysLess(car(), m_left.facts)
               ? tr("The odometer was read as %1 before. One of the two is wrong: read it at the "
                    "car.")
                     .arg(ramplight::odometerWords(before->value, before->unit))
               : QString();
}

// ---- the draft that is looked at -------------------------------------------------------------

const SpokenDraft* SpeechReview::draft() const
{
    return m_chosen < 0 || review() == nullptr ? nullptr : car().draft(ref(m_chosen));
}

DraftDecision SpeechReview::decisionOn(const DraftRef& ref) const
{
    return car().draft(ref) == nullptr
               ? DraftDecision{}
               : car().review(ref.transcript)->decisions[static_cast<std::size_t>(ref.draft)];
}

const PlaceInfo* SpeechReview::shownPlace() const
{
    return placeInfo(m_lastPlace);
}

QString SpeechReview::drawing() const
{
    const PlaceInfo* at = shownPlace();
    return m_walk.drawingOf(at == nullptr ? WalkView::Body : shownIn(*at));
}

bool SpeechReview::opened() const
{
    const PlaceInfo* at = shownPlace();
    return at == nullptr || shownIn(*at) == WalkView::Body;
}

QString SpeechReview::place() const
{
    return draft() == nullptr ? QString() : draft()->data.place.text;
}

QString SpeechReview::placeWords() const
{
    return draft() == nullptr
               ? QString()
               : sentence(ramplight::placeWords(draft()->data.place, m_book.rules()));
}

QString SpeechReview::whatWords() const
{
    return draft() == nullptr ? QString() : sentence(whatOf(draft()->data, m_book.rules()));
}

QString SpeechReview::todoWords() const
{
    return draft() == nullptr ? QString() : todoOf(draft()->data);
}

QString SpeechReview::quote() const
{
    return draft() == nullptr ? QString() : draft()->data.quote;
}

QString SpeechReview::momentWords() const
{
    return draft() == nullptr ? QString() : momentOf(draft()->data.atSeconds);
}

int SpeechReview::moment() const
{
    return draft() == nullptr ? -1 : draft()->data.atSeconds.value_or(-1);
}

bool SpeechReview::takesPicture() const
{
    if (draft() == nullptr)
        return false;
    const Finding* finding = car().finding(decisionOn(ref(m_chosen)).finding);
    return chosenOpen() || (finding != nullptr && finding->stands());
}

QString SpeechReview::likelyWords() const
{
    if (draft() == nullptr)
        return {};
    constexpr int tenth = 10;
    const int of = (draft()->percent + tenth / 2) / tenth;
    return tr("Of ten that were understood like this, about %1 are right.").arg(of);
}

bool SpeechReview::chosenOpen() const
{
    return draft() != nullptr && endOf(ref(m_chosen)) == DraftEnd::Open;
}

QString SpeechReview::decidedWords() const
{
    if (draft() == nullptr)
        return {};
    const DraftDecision decision = decisionOn(ref(m_chosen));
    const Finding* finding = car().finding(decision.finding);
    switch (decision.end) {
    case DraftEnd::Open:
        break;
    case DraftEnd::Kept:
        return finding == nullptr
                   ? tr("Kept")
                   : tr("Kept by %1").arg(m_book.nameOf(finding->versions.front().by));
    case DraftEnd::Changed:
        return finding == nullptr
                   ? tr("Kept with a change")
                   : tr("Recorded as: %1")
                         .arg(findingWords(finding->versions.front().data, m_book.rules()));
    case DraftEnd::Dropped:
        return tr("Dropped");
    }
    return {};
}

QString SpeechReview::lastWords() const
{
    return m_lastWords;
}

} // namespace ramplight
