// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/lexicon.h"
#include "appraisal/spoken/phrasepattern.h"

#include <rapidjson/document.h>
#include <rapidjson/error/en.h>

#include <algorithm>
#include <array>

namespace ramplight::spoken {

namespace {

using Json = rapidjson::Value;

struct Refused
{
    QString words;
};

[[noreturn]] void refuse(const std::string& words)
{
    throw Refused{QString::fromStdString("lexicon: " + words)};
}

std::string_view text(const Json& value)
{
    if (!value.IsString())
        refuse("a text was expected");
    return {value.GetString(), value.GetStringLength()};
}

const Json* member(const Json& object, const char* key)
{
    const auto it = object.FindMember(key);
    return it == object.MemberEnd() ? nullptr : &it->value;
}

const Json& needed(const Json& object, const char* key)
{
    const Json* value = object.IsObject() ? member(object, key) : nullptr;
    if (value == nullptr)
        refuse(std::string(key) + " is missing");
    return *value;
}

template <typename Do>
void forEachText(const Json* list, Do&& act)
{
    if (list == nullptr)
        return;
    if (!list->IsArray())
        refuse("a list was expected");
    for (const Json& item : list->GetArray())
        act(text(item));
}

template <typename Do>
void forEachMember(const Json* object, Do&& act)
{
    if (object == nullptr)
        return;
    if (!object->IsObject())
        refuse("an object was expected");
    for (const auto& entry : object->GetObject())
        act(text(entry.name), entry.value);
}

template <typename Enum>
Enum named(std::string_view name)
{
    for (const auto& [value, known] : Names<Enum>::table)
        if (known == name)
            return value;
    refuse("unknown id " + std::string(name));
}

constexpr std::array<std::pair<std::string_view, Cue>, std::size_t(Cue::Count)> cueNames{
    {{"sound", Cue::Sound},
     {"tidy", Cue::Tidy},
     {"working", Cue::Working},
     {"negation", Cue::Negation},
     {"none", Cue::None},
     {"retraction", Cue::Retraction},
     {"correction", Cue::Correction},
     {"same", Cue::Same},
     {"another", Cue::Another},
     {"except", Cue::Except},
     {"electric", Cue::Electric},
     {"twoDoor", Cue::TwoDoor},
     {"van", Cue::Van},
     {"me", Cue::Me},
     {"where", Cue::Where},
     {"elsewhere", Cue::Elsewhere},
     {"supposed", Cue::Supposed},
     {"history", Cue::History},
     {"equipment", Cue::Equipment},
     {"question", Cue::Question},
     {"any", Cue::Any},
     {"yes", Cue::Yes},
     {"no", Cue::No},
     {"normal", Cue::Normal},
     {"from", Cue::From},
     {"on", Cue::On},
     {"beside", Cue::Beside},
     {"but", Cue::But},
     {"and", Cue::And},
     {"or", Cue::Or},
     {"new", Cue::New},
     {"so", Cue::So},
     {"want", Cue::Want},
     {"them", Cue::Them},
     {"it", Cue::It},
     {"inside", Cue::Inside},
     {"outside", Cue::Outside},
     {"limit", Cue::Limit},
     {"depth", Cue::Depth},
     {"unit", Cue::Unit},
     {"to", Cue::To},
     {"talk", Cue::Talk},
     {"mileage", Cue::Mileage},
     {"single", Cue::Single},
     {"miles", Cue::Miles},
     {"kilometres", Cue::Kilometres},
     {"keys", Cue::Keys},
     {"months", Cue::Months},
     {"years", Cue::Years},
     {"test", Cue::Test},
     {"stamps", Cue::Stamps},
     {"owners", Cue::Owners},
     {"is", Cue::Is},
     {"operate", Cue::Operate},
     {"still", Cue::Still},
     {"aim", Cue::Aim}}};

constexpr std::array<std::pair<std::string_view, SideWord>, 8> sideNames{
    {{"left", SideWord::Left},
     {"right", SideWord::Right},
     {"near", SideWord::Near},
     {"off", SideWord::Off},
     {"driver", SideWord::Driver},
     {"passenger", SideWord::Passenger},
     {"this", SideWord::This},
     {"other", SideWord::Other}}};

constexpr std::array<std::pair<std::string_view, Amount>, 5> amountNames{
    {{"both", Amount::Both},
     {"all", Amount::All},
     {"every", Amount::Every},
     {"rest", Amount::Rest},
     {"other", Amount::Other}}};

template <typename Table>
auto lookUp(const Table& table, std::string_view name)
{
    const auto it = std::ranges::find(table, name, [](const auto& row) { return row.first; });
    if (it == table.end())
        refuse("unknown word " + std::string(name));
    return it->second;
}

} // namespace

class LexiconReader
{
public:
    Lexicon take(const Json& root)
    {
        m_lexicon.m_senses.emplace_back();
        if (const Json* rules = member(root, "rules")) {
            const auto flag = [&](const char* key) {
                const Json* value = member(*rules, key);
                return value != nullptr && value->IsBool() && value->GetBool();
            };
            m_lexicon.m_unitsBeforeTens = flag("unitsBeforeTens");
            m_lexicon.m_compoundNumbers = flag("compoundNumbers");
            if (const Json* sign = member(*rules, "decimalSign"))
                m_lexicon.m_decimalSign = text(*sign).substr(0, 1) == "," ? ',' : '.';
        }
        readNumbers(root);
        forEachMember(member(root, "spelling"), [&](std::string_view from, const Json& to) {
            m_lexicon.m_rewrites.emplace(std::string(from), words(text(to)));
        });
        readFlags(member(root, "fillers"), m_lexicon.m_fillers);
        readFlags(member(root, "glue"), m_lexicon.m_glue);
        readFlags(member(root, "articles"), m_lexicon.m_articles);
        readFlags(member(root, "ones"), m_lexicon.m_ones);
        readPositions(root);
        readBases(root);
        readDefects(root);
        readSlips(root);
        forEachText(member(root, "walkRound"), [&](std::string_view id) {
            m_lexicon.m_walkRound.push_back(indexOf(place(id)));
        });
        return std::move(m_lexicon);
    }

private:
    WordId intern(std::string_view word)
    {
        const auto next = WordId(m_lexicon.m_words.size() + 1);
        return m_lexicon.m_words.try_emplace(std::string(word), next).first->second;
    }

    void readFlags(const Json* list, std::vector<bool>& flags)
    {
        forEachText(list, [&](std::string_view word) {
            const WordId id = intern(word);
            if (flags.size() <= id)
                flags.resize(id + 1);
            flags[id] = true;
        });
    }

    std::vector<WordId> words(std::string_view phrase)
    {
        std::vector<WordId> ids;
        for (const auto& words : phrasesOf(phrase))
            for (const std::string& word : words)
                ids.push_back(intern(word));
        return ids;
    }

    static PlaceId place(std::string_view id)
    {
        const PlaceId known{QString::fromUtf8(id.data(), qsizetype(id.size()))};
        if (placeInfo(known) == nullptr)
            refuse("unknown place " + std::string(id));
        return known;
    }

    static int indexOf(const PlaceId& id)
    {
        return int(std::ranges::find(allPlaces(), id, &PlaceInfo::id) - allPlaces().begin());
    }

    void say(std::string_view pattern, const Sense& sense)
    {
        for (const auto& phrase : phrasesOf(pattern)) {
            int node = 0;
            for (const std::string& word : phrase) {
                const std::uint64_t key = (std::uint64_t(unsigned(node)) << 32) | intern(word);
                const auto [it, fresh] =
                    m_lexicon.m_steps.try_emplace(key, int(m_lexicon.m_senses.size()));
                if (fresh)
                    m_lexicon.m_senses.emplace_back();
                node = it->second;
            }
            m_lexicon.m_senses[std::size_t(node)].push_back(sense);
        }
    }

    void sayAll(const Json* list, const Sense& sense)
    {
        forEachText(list, [&](std::string_view pattern) { say(pattern, sense); });
    }

    void readNumbers(const Json& root)
    {
        const Json* numbers = member(root, "numbers");
        if (numbers == nullptr)
            return;
        const auto put = [&](std::string_view word, NumberWord number) {
            const WordId id = intern(word);
            if (m_lexicon.m_numbers.size() <= id)
                m_lexicon.m_numbers.resize(id + 1);
            m_lexicon.m_numbers[id] = number;
        };
        using Kind = NumberWord::Kind;
        forEachMember(member(*numbers, "values"), [&](std::string_view word, const Json& value) {
            if (!value.IsInt())
                refuse("a number was expected");
            const int number = value.GetInt();
            const bool tens = number >= 20 && number < 100 && number % 10 == 0;
            put(word, {tens ? Kind::Tens : Kind::Unit, number, false});
            if (number >= 0 && number <= 20) {
                auto& digits = m_lexicon.m_digits;
                if (digits.size() <= std::size_t(number))
                    digits.resize(std::size_t(number) + 1);
                if (digits[std::size_t(number)] == 0)
                    digits[std::size_t(number)] = intern(word);
            }
        });
        forEachMember(member(*numbers, "plurals"), [&](std::string_view word, const Json& value) {
            put(word, {Kind::Unit, value.IsInt() ? value.GetInt() : 0, true});
        });
        const std::array<std::pair<const char*, Kind>, 7> roles{{{"hundred", Kind::Hundred},
                                                                 {"thousand", Kind::Thousand},
                                                                 {"and", Kind::And},
                                                                 {"half", Kind::Half},
                                                                 {"quarter", Kind::Quarter},
                                                                 {"point", Kind::Point},
                                                                 {"article", Kind::Article}}};
        for (const auto& [key, kind] : roles)
            forEachText(member(*numbers, key), [&, kind = kind](std::string_view word) {
                put(word, {kind, 0, false});
            });
        m_lexicon.m_one = m_lexicon.digitWord(1);
    }

    void readPositions(const Json& root)
    {
        // "Bare" words are sides only beside a word that makes them one: "right" alone is talk.
        forEachMember(member(root, "sides"), [&](std::string_view name, const Json& list) {
            const bool bare = name.ends_with("Bare");
            if (bare)
                name.remove_suffix(4);
            sayAll(&list, {SenseKind::Side, int(lookUp(sideNames, name)), bare ? 2 : 0});
        });
        forEachMember(member(root, "axles"), [&](std::string_view name, const Json& list) {
            const Axle axle = name.substr(0, 5) == "front" ? Axle::Front : Axle::Rear;
            sayAll(&list, {SenseKind::Axle, int(axle),
                           name.ends_with("Several") ? 1
                           : name.ends_with("Bare")  ? 2
                                                     : 0});
        });
        forEachMember(member(root, "amounts"), [&](std::string_view name, const Json& list) {
            const bool alone = name.ends_with("Alone");
            if (alone)
                name.remove_suffix(5);
            sayAll(&list,
                   {SenseKind::Amount, int(lookUp(amountNames, name)), alone ? amountAlone : 0});
        });
        forEachMember(member(root, "cues"), [&](std::string_view name, const Json& list) {
            sayAll(&list, {SenseKind::Cue, int(lookUp(cueNames, name)), 0});
        });
    }

    void readBases(const Json& root)
    {
        const Json* bases = member(root, "bases");
        if (bases == nullptr || !bases->IsArray())
            refuse("bases are missing");
        for (const Json& entry : bases->GetArray()) {
            Base base;
            base.name = text(needed(entry, "base"));
            base.kind = text(needed(entry, "kind"));
            base.part = member(entry, "part") != nullptr;
            if (const Json* remedy = member(entry, "remedy"))
                base.remedy = named<Remedy>(text(*remedy));
            base.opening = member(entry, "opening") != nullptr;
            forEachText(member(entry, "partOf"),
                        [&](std::string_view name) { base.partOf.emplace_back(name); });
            base.group = member(entry, "group") != nullptr;
            forEachMember(member(entry, "places"), [&](std::string_view id, const Json& at) {
                base.members.push_back(memberAt(place(id), text(at)));
            });
            for (const Member& one : base.members) {
                base.sides = base.sides || one.side != base.members.front().side;
                base.axles = base.axles || one.axle != base.members.front().axle;
            }
            const int index = int(m_lexicon.m_bases.size());
            sayAll(member(entry, "one"), {SenseKind::Base, index, 0});
            sayAll(member(entry, "several"), {SenseKind::Base, index, 1});
            m_lexicon.m_bases.push_back(std::move(base));
        }
        std::size_t i = 0;
        for (const Json& entry : bases->GetArray()) {
            Base& base = m_lexicon.m_bases[i++];
            base.frontBase = otherBase(entry, "atFront");
            base.rearBase = otherBase(entry, "atRear");
            base.insideBase = otherBase(entry, "inside");
            base.workBase = otherBase(entry, "working");
            base.electricBase = otherBase(entry, "electric");
        }
    }

    int otherBase(const Json& entry, const char* key) const
    {
        const Json* name = member(entry, key);
        if (name == nullptr)
            return -1;
        const int index = m_lexicon.baseNamed(text(*name));
        if (index < 0)
            refuse("unknown base " + std::string(text(*name)));
        return index;
    }

    /// "front left", "rear", "driver", or nothing.
    static Member memberAt(const PlaceId& id, std::string_view at)
    {
        Member one{id, indexOf(id), Axle::None, SideWord::This};
        const auto has = [&](std::string_view word) { return at.find(word) != at.npos; };
        one.axle = has("front") ? Axle::Front : has("rear") ? Axle::Rear : Axle::None;
        for (const auto& [name, side] : sideNames)
            if (side != SideWord::This && side != SideWord::Other && has(name))
                one.side = side;
        return one;
    }

    void readDefects(const Json& root)
    {
        const Json* conditions = member(root, "conditions");
        if (conditions == nullptr || !conditions->IsArray())
            refuse("conditions are missing");
        for (const Json& entry : conditions->GetArray()) {
            ConditionWords words;
            words.id = named<Condition>(text(needed(entry, "id")));
            if (member(entry, "base") != nullptr)
                words.base = otherBase(entry, "base");
            words.always = member(entry, "always") != nullptr;
            words.weak = member(entry, "weak") != nullptr;
            words.bends = member(entry, "bends") != nullptr;
            forEachMember(member(entry, "on"), [&](std::string_view kind, const Json& id) {
                words.on.emplace_back(std::string(kind), named<Condition>(text(id)));
            });
            forEachText(member(entry, "only"),
                        [&](std::string_view kind) { words.only.emplace_back(kind); });
            if (const Json* severity = member(entry, "severity"))
                words.severity = named<Severity>(text(*severity));
            const int index = int(m_lexicon.m_conditions.size());
            m_lexicon.m_conditions.push_back(std::move(words));
            sayAll(member(entry, "nouns"), {SenseKind::Condition, index, 0});
            sayAll(member(entry, "adjectives"), {SenseKind::Condition, index, 1});
        }
        forEachMember(member(root, "severities"), [&](std::string_view id, const Json& list) {
            sayAll(&list, {SenseKind::Severity, int(named<Severity>(id)), 0});
        });
        const Json* remedies = member(root, "remedies");
        if (remedies == nullptr || !remedies->IsArray())
            refuse("remedies are missing");
        for (const Json& entry : remedies->GetArray()) {
            RemedyWords words;
            forEachText(member(entry, "ids"),
                        [&](std::string_view id) { words.ids.push_back(named<Remedy>(id)); });
            words.needsCue = member(entry, "needsCue") != nullptr;
            const int index = int(m_lexicon.m_remedies.size());
            m_lexicon.m_remedies.push_back(std::move(words));
            sayAll(member(entry, "say"), {SenseKind::Remedy, index, 0});
        }
        if (const Json* implied = member(root, "implied"))
            for (const Json& entry : implied->GetArray())
                m_lexicon.m_implied.push_back({named<Remedy>(text(needed(entry, "remedy"))),
                                               std::string(text(needed(entry, "on"))),
                                               named<Condition>(text(needed(entry, "condition")))});
    }

    void readSlips(const Json& root)
    {
        const Json* slips = member(root, "slips");
        if (slips == nullptr)
            return;
        constexpr std::array<std::pair<std::string_view, Slip::When>, 5> kinds{
            {{"positioned", Slip::When::Positioned},
             {"counted", Slip::When::Counted},
             {"wheel", Slip::When::Wheel},
             {"wanted", Slip::When::Wanted},
             {"beside", Slip::When::Before}}};
        for (const Json& entry : slips->GetArray()) {
            Slip slip;
            slip.when = lookUp(kinds, text(needed(entry, "when")));
            slip.meant = words(text(needed(entry, "meant")));
            forEachText(member(entry, "beside"), [&](std::string_view word) {
                for (const WordId id : words(word))
                    slip.beside.push_back(id);
            });
            forEachText(member(entry, "heard"), [&](std::string_view word) {
                m_lexicon.m_slips[intern(word)].push_back(slip);
            });
        }
    }

    Lexicon m_lexicon;
};

tl::expected<Lexicon, QString> Lexicon::read(const QByteArray& json)
{
    rapidjson::Document document;
    document.Parse(json.constData(), std::size_t(json.size()));
    if (document.HasParseError() || !document.IsObject())
        return tl::unexpected(QStringLiteral("lexicon: this is no JSON"));
    try {
        return LexiconReader().take(document);
    } catch (const Refused& refused) {
        return tl::unexpected(refused.words);
    }
}

} // namespace ramplight::spoken
