// SPDX-License-Identifier: MPL-2.0
#include "addin/office/lay_out.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <com/sun/star/awt/Point.hpp>
#include <com/sun/star/awt/Rectangle.hpp>
#include <com/sun/star/awt/Size.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/chart/ChartLegendPosition.hpp>
#include <com/sun/star/chart/X3DDisplay.hpp>
#include <com/sun/star/chart/XAxisXSupplier.hpp>
#include <com/sun/star/chart/XAxisYSupplier.hpp>
#include <com/sun/star/chart/XChartDocument.hpp>
#include <com/sun/star/chart2/Symbol.hpp>
#include <com/sun/star/chart2/SymbolStyle.hpp>
#include <com/sun/star/chart2/XChartDocument.hpp>
#include <com/sun/star/chart2/XChartTypeContainer.hpp>
#include <com/sun/star/chart2/XCoordinateSystemContainer.hpp>
#include <com/sun/star/chart2/XDataSeries.hpp>
#include <com/sun/star/chart2/XDataSeriesContainer.hpp>
#include <com/sun/star/chart2/data/XDataProvider.hpp>
#include <com/sun/star/chart2/data/XDataSink.hpp>
#include <com/sun/star/chart2/data/XLabeledDataSequence.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/document/XEmbeddedObjectSupplier.hpp>
#include <com/sun/star/drawing/FillStyle.hpp>
#include <com/sun/star/drawing/LineDash.hpp>
#include <com/sun/star/drawing/LineStyle.hpp>
#include <com/sun/star/lang/Locale.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/ConditionOperator.hpp>
#include <com/sun/star/sheet/ValidationAlertStyle.hpp>
#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetAnnotationsSupplier.hpp>
#include <com/sun/star/sheet/XSheetCellRangeContainer.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/sheet/XSheetConditionalEntries.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/BorderLine2.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/table/XTableChart.hpp>
#include <com/sun/star/table/XTableCharts.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <com/sun/star/util/XNumberFormats.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <map>
#include <optional>

#include "addin/office/cells.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

// ---- styles

struct Style {
    const char* name;
    sal_Int32 ink = 0x26302c;
    sal_Int32 ground = -1;
    float points = 10;
    bool bold = false, slanted = false, wraps = false, ruled = false;
    table::CellHoriJustify across = table::CellHoriJustify_STANDARD;
};

Style style_of(Look look) {
    constexpr auto left = table::CellHoriJustify_LEFT, right = table::CellHoriJustify_RIGHT;
    constexpr sal_Int32 deep = 0x2b5a4e, soft = 0x5f6a65;
    switch (look) {
        case Look::title:
            return {.name = "Drysheet title", .ink = deep, .points = 16, .bold = true};
        case Look::sentence:
            return {.name = "Drysheet sentence", .wraps = true, .across = left};
        case Look::section:
            return {.name = "Drysheet section", .ink = 0xffffff, .ground = deep, .bold = true};
        case Look::heading:
            return {.name = "Drysheet heading", .ink = deep, .bold = true};
        case Look::label:
            return {.name = "Drysheet label", .ruled = true};
        case Look::input:
            return {.name = "Drysheet input", .ink = 0x21406e, .ground = kInputShade, .ruled = true};
        case Look::remark:
            return {.name = "Drysheet remark", .ink = soft, .points = 9, .wraps = true, .across = left};
        case Look::alarm:
            return {.name = "Drysheet alarm",
                    .ink = 0x9b2d1c,
                    .points = 9,
                    .bold = true,
                    .wraps = true,
                    .across = left};
        case Look::result:
            return {.name = "Drysheet result", .bold = true, .ruled = true, .across = left};
        case Look::number:
            return {.name = "Drysheet number", .ink = soft, .ruled = true, .across = right};
        case Look::working:
            return {.name = "Drysheet working", .ink = soft, .points = 8};
        case Look::plain:
            break;
    }
    return {.name = "Default"};
}

class Styles {
  public:
    explicit Styles(const Document& document)
        : make_(document, UNO_QUERY_THROW),
          families_(Reference<style::XStyleFamiliesSupplier>(document, UNO_QUERY_THROW)->getStyleFamilies()) {
    }

    OUString cell(Look look) const {
        const Style style = style_of(look);
        return once("CellStyles", "com.sun.star.style.CellStyle", style.name,
                    [&](const Reference<uno::XInterface>& made) {
                        set(made, "CharColor", style.ink);
                        set(made, "CellBackColor", style.ground);
                        set(made, "CharHeight", style.points);
                        set(made, "CharWeight", style.bold ? 150.0F : 100.0F);
                        if (style.slanted) set(made, "CharPosture", 2);
                        set(made, "IsTextWrapped", style.wraps);
                        set(made, "HoriJustify", style.across);
                        // the first line of what does not fit is what is seen of it
                        set(made, "VertJustify",
                            sal_Int32{style.points < 10 && style.wraps ? table::CellVertJustify2::TOP
                                                                       : table::CellVertJustify2::CENTER});
                        if (style.ruled)
                            set(made, "BottomBorder", table::BorderLine2(0xd8dcd4, 0, 9, 0, 0, 9));
                        for (const char* script :
                             {"CharLocale", "CharLocaleAsian", "CharLocaleComplex"})  // no spelling waves
                            set(made, script, lang::Locale("zxx", OUString(), OUString()));
                    });
    }

    OUString page(const SheetPlan& plan) const {
        const char* name = plan.one_page ? (plan.landscape ? "Drysheet wide page" : "Drysheet page")
                                         : (plan.landscape ? "Drysheet wide" : "Drysheet tall");
        return once("PageStyles", "com.sun.star.style.PageStyle", name,
                    [&](const Reference<uno::XInterface>& made) {
                        constexpr sal_Int32 narrow = 21000, high = 29700, margin = 1500;  // A4 in 1/100 mm
                        set(made, "IsLandscape", plan.landscape);
                        set(made, "Width", plan.landscape ? high : narrow);
                        set(made, "Height", plan.landscape ? narrow : high);
                        for (const char* side : {"LeftMargin", "RightMargin", "TopMargin", "BottomMargin"})
                            set(made, side, margin);
                        set(made, "HeaderIsOn", false);
                        set(made, "ScaleToPagesX", sal_Int16{1});
                        set(made, "ScaleToPagesY", static_cast<sal_Int16>(plan.one_page ? 1 : 0));
                        set(made, "CenterHorizontally", true);
                    });
    }

  private:
    template <class Fill>
    OUString once(const char* family, const char* service, const char* name, const Fill& fill) const {
        const OUString title = OUString::createFromAscii(name);
        const Reference<container::XNameContainer> styles(
            families_->getByName(OUString::createFromAscii(family)), UNO_QUERY_THROW);
        if (!styles->hasByName(title)) {
            const Reference<uno::XInterface> made = make_->createInstance(OUString::createFromAscii(service));
            styles->insertByName(title, Any(made));
            fill(made);
        }
        return title;
    }

    Reference<lang::XMultiServiceFactory> make_;
    Reference<container::XNameAccess> families_;
};

// ---- cells

Range cells_of(const Sheet& sheet, const CellArea& area) {
    return cells(sheet, static_cast<sal_Int32>(area.column), static_cast<sal_Int32>(area.row),
                 static_cast<sal_Int32>(area.columns), static_cast<sal_Int32>(area.rows));
}

table::CellAddress first_of(const Range& range) {
    const table::CellRangeAddress area = address_of(range);
    return {area.Sheet, area.StartColumn, area.StartRow};
}

void allow(const Range& cell, const PlannedCell& planned) {
    const Reference<beans::XPropertySet> rule(property<Reference<uno::XInterface>>(cell, "Validation"),
                                              UNO_QUERY_THROW);
    const bool list = planned.allowed.starts_with('"');
    set(rule, "Type", list ? sheet::ValidationType_LIST : sheet::ValidationType_CUSTOM);
    set(rule, "IgnoreBlankCells", true);
    set(rule, "ShowErrorMessage", true);
    set(rule, "ErrorAlertStyle", sheet::ValidationAlertStyle_STOP);
    set(rule, "ErrorTitle", OUString("Drysheet"));
    set(rule, "ErrorMessage", ustring_from(planned.refusal));
    if (list) set(rule, "ShowList", sal_Int16{1});
    const Reference<sheet::XSheetCondition> condition(rule, UNO_QUERY_THROW);
    condition->setOperator(sheet::ConditionOperator_FORMULA);
    condition->setSourcePosition(first_of(cell));
    condition->setFormula1(ustring_from(planned.allowed));
    set(cell, "Validation", rule);
}

// A property of many cells at once.
class Many {
  public:
    explicit Many(const Document& document)
        : ranges_(Reference<lang::XMultiServiceFactory>(document, UNO_QUERY_THROW)
                      ->createInstance("com.sun.star.sheet.SheetCellRanges"),
                  UNO_QUERY_THROW) {}
    void add(const Range& range) { ranges_->addRangeAddress(address_of(range), true); }
    template <class Value>
    void set_all(const char* name, const Value& value) const {
        set(ranges_, name, value);
    }

  private:
    Reference<sheet::XSheetCellRangeContainer> ranges_;
};

// A list of what was done forgets its oldest entries beyond a hundred, also within one step, and the first of
// them is the sheet itself. So a step is made of short ones.
class Steps {
  public:
    explicit Steps(const Document& document) : document_(document) {}
    void next() {
        constexpr int short_enough = 20;  // times four changes
        if (count_++ % short_enough == 0) step_.emplace(document_, OUString());
    }

  private:
    const Document& document_;
    std::optional<UndoStep> step_;
    int count_ = 0;
};

// All at once, which is faster than one by one.
void write_contents(const Sheet& sheet, const SheetPlan& plan) {
    std::size_t columns = 1, rows = 1;
    for (const PlannedCell& planned : plan.cells) {
        columns = std::max(columns, planned.column + 1);
        rows = std::max(rows, planned.row + 1);
    }
    uno::Sequence<uno::Sequence<OUString>> contents(static_cast<sal_Int32>(rows));
    for (uno::Sequence<OUString>* row = contents.getArray();
         row != contents.getArray() + contents.getLength(); ++row)
        row->realloc(static_cast<sal_Int32>(columns));
    for (const PlannedCell& planned : plan.cells)
        contents.getArray()[planned.row].getArray()[planned.column] = ustring_from(planned.content);
    Reference<sheet::XCellRangeFormula>(cells_of(sheet, {0, 0, columns, rows}), UNO_QUERY_THROW)
        ->setFormulaArray(contents);
}

void alarm(const Sheet& sheet, const PlannedAlarm& planned, const OUString& style) {
    const Range range = cells_of(sheet, planned.area);
    const Reference<sheet::XSheetConditionalEntries> entries(
        property<Reference<uno::XInterface>>(range, "ConditionalFormat"), UNO_QUERY_THROW);
    const auto part = [](const char* name, const Any& value) {
        return beans::PropertyValue(OUString::createFromAscii(name), 0, value,
                                    beans::PropertyState_DIRECT_VALUE);
    };
    const beans::PropertyValue entry[] = {part("Operator", Any(sheet::ConditionOperator_FORMULA)),
                                          part("Formula1", Any(ustring_from(planned.where))),
                                          part("SourcePosition", Any(first_of(range))),
                                          part("StyleName", Any(style))};
    entries->addNew({entry, std::size(entry)});
    set(range, "ConditionalFormat", entries);
}

// ---- charts

sal_Int32 length_of(const Reference<container::XIndexAccess>& lines, const char* name, std::size_t from,
                    std::size_t count) {
    sal_Int32 length = 0;
    for (std::size_t i = from; i < from + count; ++i)
        length += property<sal_Int32>(
            Reference<uno::XInterface>(lines->getByIndex(static_cast<sal_Int32>(i)), UNO_QUERY), name);
    return length;
}

// The cells of a series by the role they have in it.
Reference<chart2::data::XLabeledDataSequence> values(const Reference<uno::XComponentContext>& context,
                                                     const Reference<chart2::data::XDataProvider>& provider,
                                                     const std::string& cells, const char* role,
                                                     const std::string& label) {
    Reference<chart2::data::XLabeledDataSequence> made(
        context->getServiceManager()->createInstanceWithContext(
            "com.sun.star.chart2.data.LabeledDataSequence", context),
        UNO_QUERY_THROW);
    const auto sequence = provider->createDataSequenceByRangeRepresentation(ustring_from(cells));
    set(sequence, "Role", OUString::createFromAscii(role));
    made->setValues(sequence);
    if (!label.empty()) {
        const auto name = provider->createDataSequenceByRangeRepresentation(ustring_from(label));
        set(name, "Role", OUString("label"));
        made->setLabel(name);
    }
    return made;
}

Reference<chart2::XDataSeries> series_of(const PlannedChart::Series& planned, const std::string& own_sheet,
                                         std::size_t number, const Reference<uno::XComponentContext>& context,
                                         const Reference<chart2::data::XDataProvider>& provider) {
    using Line = PlannedChart::Series::Line;
    const std::string& sheet = planned.sheet.empty() ? own_sheet : planned.sheet;
    Reference<chart2::XDataSeries> made(
        context->getServiceManager()->createInstanceWithContext("com.sun.star.chart2.DataSeries", context),
        UNO_QUERY_THROW);
    const Reference<chart2::data::XLabeledDataSequence> both[] = {
        values(context, provider, absolute(planned.x, sheet), "values-x", {}),
        values(context, provider, absolute(planned.y, sheet), "values-y",
               planned.named_by.empty() ? absolute({planned.y.column, planned.y.row - 1}, sheet)
                                        : planned.named_by)};
    Reference<chart2::data::XDataSink>(made, UNO_QUERY_THROW)->setData({both, std::size(both)});
    constexpr std::array<sal_Int32, 6> inks{0xb5562b, 0x2b5a4e, 0x3f5f9a, 0x8a7a2c, 0x7a4a86, 0x4b8a93};
    const sal_Int32 ink = inks.at(number % inks.size());
    const bool points = planned.line == Line::points || planned.line == Line::joined;
    chart2::Symbol symbol;
    symbol.Style = points ? chart2::SymbolStyle_STANDARD : chart2::SymbolStyle_NONE;
    symbol.StandardSymbol = 8;  // a circle
    symbol.Size = {180, 180};
    symbol.FillColor = symbol.BorderColor = ink;
    set(made, "Color", ink);
    set(made, "Symbol", symbol);
    set(made, "LineStyle",
        planned.line == Line::points   ? drawing::LineStyle_NONE
        : planned.line == Line::dashed ? drawing::LineStyle_DASH
                                       : drawing::LineStyle_SOLID);
    set(made, "LineWidth", sal_Int32{50});
    if (planned.line == Line::dashed)
        set(made, "LineDash", drawing::LineDash(drawing::DashStyle_RECT, 0, 0, 1, 200, 150));
    return made;
}

void draw(const Sheet& sheet, const PlannedChart& planned, std::size_t number,
          const Reference<uno::XComponentContext>& context) {
    const Reference<table::XColumnRowRange> lines(sheet, UNO_QUERY_THROW);
    const Reference<container::XIndexAccess> columns(lines->getColumns(), UNO_QUERY_THROW),
        rows(lines->getRows(), UNO_QUERY_THROW);
    const auto corner = property<awt::Point>(cells_of(sheet, planned.over), "Position");
    const awt::Rectangle place(corner.X, corner.Y,
                               length_of(columns, "Width", planned.over.column, planned.over.columns) - 100,
                               length_of(rows, "Height", planned.over.row, planned.over.rows));
    const Reference<table::XTableCharts> charts =
        Reference<table::XTableChartsSupplier>(sheet, UNO_QUERY_THROW)->getCharts();
    const std::string own = utf8_from(Reference<container::XNamed>(sheet, UNO_QUERY_THROW)->getName());
    const OUString name =
        ustring_from(own + " " + std::to_string(number + 1));  // one of its kind in the workbook
    // any cells will do for now: without some a chart is given no provider of data
    const table::CellRangeAddress some = address_of(cells_of(sheet, planned.over));
    charts->addNewByName(name, place, {&some, 1}, false, false);
    const Reference<document::XEmbeddedObjectSupplier> held(
        Reference<container::XNameAccess>(charts, UNO_QUERY_THROW)->getByName(name), UNO_QUERY_THROW);
    const Reference<chart::XChartDocument> chart(held->getEmbeddedObject(), UNO_QUERY_THROW);
    const Reference<chart::XDiagram> diagram(Reference<lang::XMultiServiceFactory>(chart, UNO_QUERY_THROW)
                                                 ->createInstance("com.sun.star.chart.XYDiagram"),
                                             UNO_QUERY_THROW);
    chart->setDiagram(diagram);
    const auto title = [](const Reference<uno::XInterface>& of, const std::string& text, float points) {
        set(of, "String", ustring_from(text));
        set(of, "CharHeight", points);
    };
    set(chart, "HasMainTitle", true);
    title(chart->getTitle(), planned.title, 11);
    set(chart->getArea(), "LineStyle", drawing::LineStyle_NONE);
    set(Reference<chart::X3DDisplay>(diagram, UNO_QUERY_THROW)->getWall(), "FillStyle",
        drawing::FillStyle_NONE);
    set(chart, "HasLegend", true);
    set(chart->getLegend(), "FillStyle", drawing::FillStyle_NONE);
    set(chart->getLegend(), "LineStyle", drawing::LineStyle_NONE);
    set(chart->getLegend(), "Alignment", chart::ChartLegendPosition_BOTTOM);
    set(diagram, "HasXAxisTitle", true);
    set(diagram, "HasYAxisTitle", true);
    title(Reference<chart::XAxisXSupplier>(diagram, UNO_QUERY_THROW)->getXAxisTitle(), planned.x_title, 9);
    title(Reference<chart::XAxisYSupplier>(diagram, UNO_QUERY_THROW)->getYAxisTitle(), planned.y_title, 9);

    const Reference<chart2::XChartDocument> inside(chart, UNO_QUERY_THROW);
    const Reference<chart2::XCoordinateSystemContainer> systems(inside->getFirstDiagram(), UNO_QUERY_THROW);
    const Reference<chart2::XChartTypeContainer> types(systems->getCoordinateSystems()[0], UNO_QUERY_THROW);
    std::vector<Reference<chart2::XDataSeries>> all;
    for (const PlannedChart::Series& series : planned.series)
        all.push_back(series_of(series, own, all.size(), context, inside->getDataProvider()));
    Reference<chart2::XDataSeriesContainer>(types->getChartTypes()[0], UNO_QUERY_THROW)
        ->setDataSeries({all.data(), static_cast<sal_Int32>(all.size())});
}

sal_Int32 hundredths(double millimetres) { return static_cast<sal_Int32>(std::lround(millimetres * 100)); }

void size(const Reference<uno::XInterface>& lines, const char* name, std::size_t number, double millimetres) {
    const Reference<container::XIndexAccess> all(lines, UNO_QUERY_THROW);
    set(Reference<uno::XInterface>(all->getByIndex(static_cast<sal_Int32>(number)), UNO_QUERY), name,
        hundredths(millimetres));
}

}  // namespace

void lay_out(const Document& document, const Sheet& sheet, const SheetPlan& plan,
             const Reference<uno::XComponentContext>& context) {
    const Styles styles(document);
    std::map<Look, Many> by_look;
    std::map<std::string, Many> by_format;
    const Reference<sheet::XSheetAnnotations> notes =
        Reference<sheet::XSheetAnnotationsSupplier>(sheet, UNO_QUERY_THROW)->getAnnotations();
    Steps steps(document);
    steps.next();
    write_contents(sheet, plan);
    for (const PlannedCell& planned : plan.cells) {
        steps.next();
        const Range range = cells_of(sheet, {planned.column, planned.row, planned.columns, planned.rows});
        by_look.try_emplace(planned.look, document).first->second.add(range);
        if (!planned.format.empty()) by_format.try_emplace(planned.format, document).first->second.add(range);
        if (planned.columns * planned.rows > 1)
            Reference<util::XMergeable>(range, UNO_QUERY_THROW)->merge(true);
        if (!planned.note.empty()) notes->insertNew(first_of(range), ustring_from(planned.note));
        if (!planned.allowed.empty()) allow(range, planned);
    }
    const Reference<table::XColumnRowRange> lines(sheet, UNO_QUERY_THROW);
    for (std::size_t i = 0; i < plan.widths.size(); ++i) {
        steps.next();
        size(lines->getColumns(), "Width", i, plan.widths[i]);
    }
    steps.next();
    for (const auto& [look, ranges] : by_look) ranges.set_all("CellStyle", styles.cell(look));
    const Reference<util::XNumberFormats> formats =
        Reference<util::XNumberFormatsSupplier>(document, UNO_QUERY_THROW)->getNumberFormats();
    for (const auto& [code, ranges] : by_format)
        ranges.set_all("NumberFormat",
                       formats->addNewConverted(ustring_from(code), {"en", "US", OUString()}, {}));
    if (plan.height > 0) {
        std::size_t rows = 1;
        for (const PlannedCell& planned : plan.cells) rows = std::max(rows, planned.row + 1);
        set(Reference<table::XColumnRowRange>(cells_of(sheet, {0, 0, 1, rows}), UNO_QUERY_THROW)->getRows(),
            "Height", hundredths(plan.height));
    }
    steps.next();
    for (const auto& [row, height] : plan.heights) size(lines->getRows(), "Height", row, height);
    for (const PlannedAlarm& planned : plan.alarms) alarm(sheet, planned, styles.cell(Look::alarm));
    for (const PlannedName& planned : plan.names) {
        steps.next();
        name_range(cells_of(sheet, planned.area), planned.name.c_str());
    }
    steps.next();
    for (std::size_t i = 0; i < plan.charts.size(); ++i) draw(sheet, plan.charts[i], i, context);
    if (plan.print.columns > 1) {
        const table::CellRangeAddress area = address_of(cells_of(sheet, plan.print));
        Reference<sheet::XPrintAreas>(sheet, UNO_QUERY_THROW)->setPrintAreas({&area, 1});
        set(sheet, "PageStyle", styles.page(plan));
    }
}

}  // namespace drysheet
